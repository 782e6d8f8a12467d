import type { Answer, JobState } from '../chart/index.ts';
import { own, resultOf, UNLISTED, type Tree } from '../document/index.ts';

/** What one closed job adds to history. */
export interface Contribution {
  /** The confirmed finding, one more in n(s,f); null where the job was not closed as fixed by a proven remedy. */
  readonly confirmed: { readonly symptom: string; readonly finding: string } | null;
  /** One more in n(t,f,r) each, f being the confirmed finding. Empty for `unlisted`. */
  readonly results: readonly { readonly test: string; readonly result: string }[];
  /** Remedies of the tree whose proof was made. */
  readonly remedies: readonly { readonly finding: string; readonly mended: boolean }[];
}

/**
 * What a job adds to the history of `tree`, which may be a later revision than the one it was walked on; null where it is
 * not closed or adds nothing. A finding counts as confirmed only where the job was closed as fixed after its remedy's
 * proof, and with it count the results that led to that remedy: each reading sorted into the bands the tree has now, and
 * as it was recorded where the tree can no longer sort it. A job that ended otherwise still adds the remedies that did
 * not mend the unit. A cause outside the tree (`unlisted`) counts for its symptom alone.
 */
export function contributionOf(tree: Tree, job: JobState): Contribution | null {
  if (job.outcome === undefined) return null;
  const tried = job.remedies.filter(({ finding }) => finding !== UNLISTED);
  const failed = tried.filter(({ state }) => state === 'not-mended');
  const remedies = failed.map(({ finding }) => ({ finding, mended: false }));
  const mended =
    job.outcome === 'fixed' ? job.remedies.findLast(({ state }) => state === 'mended') : undefined;
  if (mended === undefined) return remedies.length === 0 ? null : { confirmed: null, results: [], remedies };
  const confirmed = { symptom: job.symptom, finding: mended.finding };
  if (mended.finding === UNLISTED) return { confirmed, results: [], remedies };
  const results = mended.evidence.map((answer) => ({ test: answer.test, result: resultNow(tree, answer) }));
  return { confirmed, results, remedies: [...remedies, { finding: mended.finding, mended: true }] };
}

function resultNow(tree: Tree, { test: id, result, reading, reference }: Answer): string {
  const test = own(tree.tests, id);
  if (test === undefined || reading === undefined) return result;
  const held = resultOf(test, reading.value, reference);
  return held.ok ? held.result : result;
}
