import type { JobState, Reading, RemedyTried } from '../../../trees/chart/index.ts';
import type { Tree } from '../../../trees/document/index.ts';
import type { StoredEvent } from '../../../main/contract/index.ts';

/** A remedy that did not mend the unit, and the answer that has just shown it. */
export interface FailedProof {
  readonly remedy: RemedyTried;
  readonly test: string;
  readonly result: string;
  readonly reading?: Reading;
}

/**
 * The proof that the answer given last has failed; null once anything else has been answered, skipped or taken in hand.
 * An answer fails a proof by not being what a sound unit gives, or by keeping an interlock on the proof's way barred.
 */
export function failedProof(tree: Tree, job: JobState, kept: readonly StoredEvent[]): FailedProof | null {
  const remedy = job.remedies.at(-1);
  const event = kept.findLast(({ event: { kind } }) => kind !== 'change')?.event;
  if (remedy?.state !== 'not-mended' || (event?.kind !== 'answer' && event?.kind !== 'correct')) return null;
  const { test, result, reading } = event;
  const proof = remedy.proofs.find((one) => one.test === test);
  const unsound = remedy.proofs.some((one) => one.result !== sound(tree, one.test));
  const failed = proof === undefined ? !unsound && bars(tree, test, result) : result !== sound(tree, test);
  return failed ? { remedy, test, result, ...(reading === undefined ? {} : { reading }) } : null;
}

function bars(tree: Tree, test: string, result: string): boolean {
  return tree.interlocks.some(({ until }) => until[test]?.includes(result) === false);
}

function sound(tree: Tree, test: string): string | undefined {
  return Object.keys(tree.tests[test]?.results ?? {})[0];
}
