import { own, referenceOf, type Test, type Tree } from '../document/index.ts';
import type { JobEvent } from './event.ts';
import type { Answer, JobState } from './job.ts';

/** The answer that stands for a test. */
export function answerTo(job: JobState, test: string): Answer | undefined {
  return job.answers.find((answer) => answer.test === test);
}

/** The result that the course goes on by: the standing answer's, else the one a skip goes on as. */
export function resultToGoBy(job: JobState, test: string): string | undefined {
  return answerTo(job, test)?.result ?? job.skips.find((skip) => skip.test === test)?.as;
}

/** Whether a test cannot be made in this job and nothing is assumed in its place: skipped without `as`, and not answered. */
export function isLeftOut(job: JobState, test: string): boolean {
  const skip = job.skips.find((one) => one.test === test);
  return skip !== undefined && skip.as === undefined && answerTo(job, test) === undefined;
}

/** The result a sound unit gives: the first listed. */
export function soundResult(test: Test): string | undefined {
  return Object.keys(test.results)[0];
}

/** Whether an answer, given now, differs from one that stands from the same era. */
export function contradicts(job: JobState, test: string, result: string): boolean {
  const standing = answerTo(job, test);
  return standing !== undefined && standing.era === job.era && standing.result !== result;
}

/** Whether the course so far may rest on what an event replaces, so that it must set out from the path's start again. */
export function replaces(job: JobState, test: string): boolean {
  return answerTo(job, test) !== undefined || job.skips.some((skip) => skip.test === test);
}

/** The answer that an event gives, with the reference its ratio bands are taken against. */
export function toAnswer(
  tree: Tree,
  job: JobState,
  { test, result, reading }: JobEvent & { kind: 'answer' | 'correct' },
  era: number,
): Answer {
  const answer = { test, result, era, ...(reading === undefined ? {} : { reading }) };
  const reference = referenceValue(tree, job, test);
  return typeof reference === 'number' ? { ...answer, reference } : answer;
}

/**
 * The value that a test's ratio bands are taken against: the reading that stands for the test they name, or, where that
 * is gone, the one its own standing answer was taken against. Undefined where there is none or the bands are no ratios.
 */
export function referenceValue(tree: Tree, job: JobState, test: string): number | 'OL' | undefined {
  const of = referenceTest(tree, test);
  if (of === undefined) return undefined;
  return answerTo(job, of)?.reading?.value ?? answerTo(job, test)?.reference;
}

/** The test whose reading must stand before this one can be asked; undefined where none is wanted or it stands. */
export function missingReference(tree: Tree, job: JobState, test: string): string | undefined {
  const of = referenceTest(tree, test);
  return of === undefined || answerTo(job, of)?.reading !== undefined ? undefined : of;
}

function referenceTest(tree: Tree, id: string): string | undefined {
  const test = own(tree.tests, id);
  return test === undefined ? undefined : referenceOf(test);
}
