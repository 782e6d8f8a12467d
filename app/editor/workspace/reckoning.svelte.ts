import { NO_HISTORY, type History } from '../../../trees/belief/index.ts';
import type { EditorDesk } from '../desk/editor-desk.svelte.ts';
import type { BranchShares } from '../drawing/index.ts';
import { Reckoner, startReckonerWorker, type Traffic } from '../reckoner/index.ts';

/** What checks and costs are reckoned with besides the draft: the shop’s history, and the published text it stands on. */
export interface Figures {
  readonly history: History;
  readonly published: string | null;
}

/**
 * Begins to reckon checks and costs of what is on a desk, beside the published revision it stands on, which the desk has from then
 * on; gives back what ends that.
 */
export function beginReckoning(
  desk: EditorDesk,
  { history, published }: Figures,
): { readonly reckoner: Reckoner; readonly end: () => void } {
  desk.publishedText = published;
  const reckoner = new Reckoner(
    startReckonerWorker,
    () => ({ document: desk.document, back: desk.draft.undo?.top.changes ?? null }),
    { published, figures: { history, rate: desk.session.hourlyRate }, symptom: desk.symptom },
  );
  const unfollow = desk.follow((changes) => reckoner.edited(changes));
  return {
    reckoner,
    end: () => {
      unfollow();
      reckoner.stop();
    },
  };
}

/** Fetches the figures of what is on a desk and stands on `base`. Of a tree that is not published yet the shop has seen nothing. */
export async function figuresOf(desk: EditorDesk, base: string | null): Promise<Figures> {
  if (base === null) return { history: NO_HISTORY, published: null };
  const { session, readonly, treeId } = desk;
  const [history, revision] = await Promise.all([
    session.ask((client, signal) => client.history.of({ treeId }, { signal })),
    session.ask((client, signal) => client.trees.revision({ revisionId: base }, { signal })),
  ]);
  return {
    history: history.ok ? history.value : NO_HISTORY,
    // Of a published revision that is only read, there is nothing to set beside it.
    published: revision.ok && !readonly ? revision.value.text : null,
  };
}

/** Where a symptom’s units go, from authors and history together, as far as it is reckoned; else undefined. */
export function sharesOf(reckoner: Reckoner | null, symptom: string | null): BranchShares | undefined {
  const now = reckoner?.costs.now;
  if (symptom === null || now?.symptom !== symptom || !now.isolate.ok) return undefined;
  const traffic = reckoner?.traffic ?? null;
  return traffic?.symptom === symptom ? sharesFrom(traffic) : undefined;
}

/** The same shares are given again for as long as the units’ way is the same, so that the drawing is not made anew for them. */
function sharesFrom(traffic: Traffic): BranchShares {
  const known = shares.get(traffic);
  if (known !== undefined) return known;
  const found = new Map(
    traffic.steps
      .filter((step) => step.symptom === traffic.symptom)
      .map(({ step, results }) => [
        step,
        new Map(results.map(({ result, probability }) => [result, probability])),
      ]),
  );
  shares.set(traffic, found);
  return found;
}

const shares = new WeakMap<Traffic, BranchShares>();
