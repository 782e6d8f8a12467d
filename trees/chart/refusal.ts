import { own, type Test, type Tree } from '../document/index.ts';
import type { JobState } from './job.ts';
import type { Refusal } from './standing.ts';

/** A refusal: a stable code, what stands in the way, and what can be done instead. */
export function refusal(code: string, message: string, help: string): Refusal {
  return { code, message, help };
}

export function unknownTest(test: string): Refusal {
  return refusal('unknown-test', `This tree has no test “${test}”.`, 'Choose a test of this tree.');
}

/** A test as its author titled it. */
export function testTitle(tree: Tree, id: string): string {
  return own(tree.tests, id)?.title ?? id;
}

/** Results of a test as its author titled them. */
export function resultTitles({ results }: Test, ids: readonly string[] = Object.keys(results)): string {
  return ids.map((id) => `“${own(results, id)?.title ?? id}”`).join(' or ');
}

/** A bench state as its author titled it. */
export function benchTitle(tree: Tree, axis: string, state: string): string {
  const known = tree.bench[axis];
  return `${known?.title ?? axis}: ${known?.states[state]?.title ?? state}`;
}

/** Why no new act may be begun: a contradiction waits to be settled, or the unit is mended and only closing is left. */
export function refuseWork(tree: Tree, job: JobState): Refusal | null {
  if (job.contradiction !== undefined) {
    return refusal(
      'settle-first',
      `Two answers to “${testTitle(tree, job.contradiction.test)}” contradict each other.`,
      'Say which of them stands, or that neither does.',
    );
  }
  if (job.remedies.at(-1)?.state === 'mended') {
    return refusal(
      'mended-already',
      'The remedy is proved: the unit is mended.',
      'Close the job, or correct or take back an answer that was mis-keyed.',
    );
  }
  return null;
}
