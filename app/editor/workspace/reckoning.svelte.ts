import { NO_HISTORY, sortingOf, type History } from '../../../trees/belief/index.ts';
import type { Asked } from '../../shell/index.ts';
import type { EditorDesk } from '../desk/editor-desk.svelte.ts';
import { treeIn } from '../desk/opened-draft.ts';
import type { BranchShares } from '../drawing/index.ts';
import { Reckoner, startReckonerWorker, type Traffic } from '../reckoner/index.ts';
import { DraftHistories } from './draft-histories.ts';

/** What checks and costs are reckoned with besides the draft: the shop’s history, and the published text it stands on. */
export interface Figures {
  /** As the shop has it, sorted by the tree's current revision. */
  readonly history: History;
  /** As the draft sorts it; null where there is no draft, or nothing to be sorted. */
  readonly histories: DraftHistories | null;
  readonly published: string | null;
}

/** After trouble with the history as the draft sorts it, it is asked for again after this long. */
const AGAIN_MILLISECONDS = 5000;

/**
 * Begins to reckon checks and costs of what is on a desk, beside the published revision it stands on, which the desk has from then
 * on; gives back what ends that.
 */
export function beginReckoning(
  desk: EditorDesk,
  { history, histories, published }: Figures,
): { readonly reckoner: Reckoner; readonly end: () => void } {
  desk.publishedText = published;
  const reckoner = new Reckoner(
    startReckonerWorker,
    () => ({ document: desk.document, back: desk.draft.undo?.top.changes ?? null }),
    {
      published,
      figures: { history, rate: desk.session.hourlyRate },
      ...(histories !== null && { sorted: histories.known }),
      symptom: desk.symptom,
    },
  );
  const unfollow = desk.follow((changes) => reckoner.edited(changes));
  const unsort = histories === null ? () => undefined : keepSorted(reckoner, histories);
  return {
    reckoner,
    end: () => {
      unsort();
      unfollow();
      reckoner.stop();
    },
  };
}

/** Gives a reckoner the history in each sorting that it comes to lack; gives back what ends that. */
export function keepSorted(reckoner: Reckoner, histories: DraftHistories): () => void {
  let isAsking = false;
  let isOver = false;
  let again: ReturnType<typeof setTimeout> | undefined;
  async function sort(): Promise<void> {
    if (isAsking || isOver) return;
    clearTimeout(again);
    isAsking = true;
    const asked = await histories.now();
    isAsking = false;
    if (isOver) return;
    if (asked.ok) reckoner.sortedAs(asked.value);
    else if (reckoner.isUnsorted) again = setTimeout(() => void sort(), AGAIN_MILLISECONDS);
  }
  reckoner.onunsorted = () => void sort();
  if (reckoner.isUnsorted) void sort();
  return () => {
    isOver = true;
    clearTimeout(again);
  };
}

/** Fetches the figures of what is on a desk and stands on `base`. Of a tree that is not published yet the shop has seen nothing. */
export async function figuresOf(desk: EditorDesk, base: string | null): Promise<Figures> {
  if (base === null) return { history: NO_HISTORY, histories: null, published: null };
  const { session, readonly, treeId } = desk;
  const [asked, revision, trees] = await Promise.all([
    session.ask((client, signal) => client.history.of({ treeId }, { signal })),
    session.ask((client, signal) => client.trees.revision({ revisionId: base }, { signal })),
    session.ask((client, signal) => client.trees.list(undefined, { signal })),
  ]);
  const history = asked.ok ? asked.value : NO_HISTORY;
  const isCurrent = trees.ok && trees.value.some(({ revisionId }) => revisionId === base);
  const standsOn = isCurrent && revision.ok ? treeIn(revision.value.text) : null;
  const first = standsOn === null ? null : { sorting: sortingOf(standsOn), history };
  return {
    history,
    // Where the history could not be read, there is none to be sorted either.
    histories: readonly || !asked.ok ? null : new DraftHistories(desk, first),
    // Of a published revision that is only read, there is nothing to set beside it.
    published: revision.ok && !readonly ? revision.value.text : null,
  };
}

/** The history as what is on the desk sorts it now; or why it cannot be had. */
export async function historyNow(figures: Promise<Figures>): Promise<Asked<History>> {
  const { history, histories } = await figures;
  if (histories === null) return { ok: true, value: history };
  const sorted = await histories.now();
  return sorted.ok ? { ok: true, value: sorted.value.history } : sorted;
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
