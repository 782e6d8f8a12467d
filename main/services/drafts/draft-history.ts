import { setImmediate as letOthersGo } from 'node:timers/promises';
import type { History } from '../../../trees/belief/index.ts';
import { liveTree } from '../../../trees/edit/index.ts';
import { openTally, type Records } from '../../records/index.ts';
import { answer, type Answer } from '../answer.ts';
import { draftInHand } from './draft-in-hand.ts';
import type { LiveDrafts } from './live-drafts.ts';

/** A draft's history, and how many entries the draft had that it is sorted by. */
export interface DraftHistory {
  readonly entries: number;
  readonly history: History;
}

interface Asking {
  readonly ask: <T>(question: (records: Records) => Answer<T>) => Answer<T>;
  readonly drafts: LiveDrafts;
}

/**
 * The history that a draft's tree would have were the draft published now: every closed job sorted into its bands, results and ids. Some
 * hundreds of jobs at a time, so that other requests come between; given up where `signal` says so.
 */
export async function draftHistory(
  { ask, drafts }: Asking,
  draftId: string,
  signal?: AbortSignal,
): Promise<Answer<DraftHistory>> {
  const found = ask((records) => {
    const stored = draftInHand(records, draftId);
    if (!stored.ok) return stored;
    const made = drafts.at(records, stored.value);
    if (!made.ok) return made;
    const { treeId, entries } = stored.value;
    return answer({ treeId, entries, tree: liveTree(made.value.document).tree });
  });
  if (!found.ok) return found;
  const { treeId, entries, tree } = found.value;
  const tally = openTally(tree);
  for (let after: number | null = -1; after !== null && signal?.aborted !== true; await letOthersGo()) {
    const place: number = after;
    const some = ask((records) => answer(records.contributionsAs(treeId, tree, place)));
    if (!some.ok) return some;
    tally.add(some.value.contributions);
    after = some.value.goOn;
  }
  return answer({ entries, history: tally.history() });
}
