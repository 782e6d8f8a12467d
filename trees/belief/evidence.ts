import type { Answer, JobState } from '../chart/index.ts';
import { UNLISTED, type Tree } from '../document/index.ts';
import { readingWeights } from './reading-weights.ts';

/** What a job has shown so far: the tests made, and the findings whose remedy did not mend the unit. */
export interface Evidence {
  readonly observations: readonly Observation[];
  readonly failed: readonly string[];
}

/** One test made: how much weight each result has, summing to one; absent results have none. */
export interface Observation {
  readonly test: string;
  readonly weights: Readonly<Record<string, number>>;
}

export const NO_EVIDENCE: Evidence = { observations: [], failed: [] };

/** The observation of a result that was chosen, with no doubt as to which it was. */
export function chosen(test: string, result: string): Observation {
  return { test, weights: { [result]: 1 } };
}

/**
 * The evidence of a job on its own tree revision: each standing answer (skips are none; a reading spreads over the bands
 * near it), and each remedy that did not mend the unit. A failed attempt at a cause outside the tree rules out that one
 * cause, not all that `unlisted` stands for, and so it moves nothing.
 */
export function evidenceOf(tree: Tree, job: JobState): Evidence {
  const failed = job.remedies.filter(({ state, finding }) => state === 'not-mended' && finding !== UNLISTED);
  return {
    observations: job.answers.map((answer) => observationOf(tree, answer)),
    failed: failed.map(({ finding }) => finding),
  };
}

function observationOf(tree: Tree, { test: id, result, reading, reference }: Answer): Observation {
  const test = tree.tests[id];
  if (test === undefined) throw new Error(`unknown-test: the tree has no test "${id}"`);
  if (reading === undefined) return chosen(id, result);
  const weighed = readingWeights(test, reading, reference);
  if (!weighed.ok) throw new Error(`${weighed.code}: the standing answer to "${id}" cannot be weighed`);
  return { test: id, weights: weighed.weights };
}
