import { own, resultOf, type Test, type Tree } from '../document/index.ts';
import { answerTo, missingReference, referenceValue } from './answers.ts';
import { isMet } from './changeover.ts';
import type { JobEvent } from './event.ts';
import type { JobState } from './job.ts';
import { benchTitle, refusal, refuseWork, resultTitles, testTitle, unknownTest } from './refusal.ts';
import { refuseUnsafe } from './refuse-change.ts';
import type { Situation } from './situation.ts';
import type { Refusal } from './standing.ts';

type AnswerEvent = JobEvent & { readonly kind: 'answer' | 'correct' };

/** An answer is taken for any test that can be made as the bench stands, whether or not it is the one asked now. */
export function refuseAnswer(tree: Tree, at: Situation, event: AnswerEvent): Refusal | null {
  const test = own(tree.tests, event.test);
  if (test === undefined) return unknownTest(event.test);
  return (
    refuseWork(tree, at.job) ??
    refuseUnsafe(tree, at) ??
    refuseNeeds(tree, at, test) ??
    refuseMissingReference(tree, at.job, event.test) ??
    refuseResult(tree, at.job, test, event)
  );
}

/** A correction is taken for any answer that stands, however the bench stands now: the test is not made again. */
export function refuseCorrection(tree: Tree, { job }: Situation, event: AnswerEvent): Refusal | null {
  const test = own(tree.tests, event.test);
  if (test === undefined) return unknownTest(event.test);
  if (answerTo(job, event.test) === undefined) {
    return refusal(
      'nothing-to-correct',
      `“${test.title}” has no answer that stands.`,
      'Turn to the test and make it.',
    );
  }
  return refuseResult(tree, job, test, event);
}

export function refuseSettling(
  tree: Tree,
  { contradiction, answers }: JobState,
  result: string | null,
): Refusal | null {
  if (contradiction === undefined) {
    return refusal('nothing-to-settle', 'No answers contradict each other.', 'Go on with the act shown.');
  }
  const first = answers.find(({ test }) => test === contradiction.test)?.result ?? '';
  return result === null || result === contradiction.result || result === first
    ? null
    : refusal(
        'not-one-of-the-two',
        `“${result}” is neither of the two answers to “${testTitle(tree, contradiction.test)}”.`,
        'Choose one of the two, or say that neither stands.',
      );
}

/** Why no answer to a test can be taken as the bench and the earlier readings stand; null where one can. */
export function refuseAsking(tree: Tree, at: Situation, id: string): Refusal | null {
  const test = own(tree.tests, id);
  if (test === undefined) return unknownTest(id);
  const reference = referenceValue(tree, at.job, id);
  return (
    refuseNeeds(tree, at, test) ??
    refuseMissingReference(tree, at.job, id) ??
    (reference === 0 || reference === 'OL' ? unusableReference(test) : null)
  );
}

function refuseNeeds(tree: Tree, at: Situation, { title, needs }: Test): Refusal | null {
  if (isMet(needs, at)) return null;
  const unmet = Object.entries(needs).filter(([axis, state]) => at.bench[axis] !== state);
  const wanted = unmet.map(([axis, state]) => benchTitle(tree, axis, state)).join('; ');
  return refusal(
    'needs-unmet',
    `“${title}” cannot be made as the bench stands.`,
    `Turn to the test, and make the changeovers shown first. Wanted: ${wanted}.`,
  );
}

function refuseMissingReference(tree: Tree, job: JobState, id: string): Refusal | null {
  const missing = missingReference(tree, job, id);
  if (missing === undefined) return null;
  return refusal(
    'reference-missing',
    `“${testTitle(tree, id)}” is judged against the reading of “${testTitle(tree, missing)}”, which does not stand.`,
    'Take that reading first.',
  );
}

function refuseResult(tree: Tree, job: JobState, test: Test, event: AnswerEvent): Refusal | null {
  if (!Object.hasOwn(test.results, event.result)) {
    return refusal(
      'unknown-result',
      `“${event.result}” is no result of “${test.title}”.`,
      `Its results are called ${Object.keys(test.results).join(', ')}.`,
    );
  }
  if (test.reading === undefined) {
    return event.reading === undefined
      ? null
      : refusal(
          'reading-not-wanted',
          `“${test.title}” is answered by choosing, not by a reading.`,
          'Leave the reading out.',
        );
  }
  if (event.reading === undefined) {
    return refusal(
      'reading-missing',
      `“${test.title}” is measured.`,
      `Give the reading, in ${test.reading.unit}.`,
    );
  }
  return refuseBand(test, event.reading.value, referenceValue(tree, job, event.test), event.result);
}

function refuseBand(
  test: Test,
  value: number | 'OL',
  reference: number | 'OL' | undefined,
  result: string,
): Refusal | null {
  if (reference === 'OL') return unusableReference(test);
  const held = resultOf(test, value, reference);
  if (held.ok) {
    return held.result === result
      ? null
      : refusal(
          'result-mismatch',
          `A reading of ${String(value)} is ${resultTitles(test, [held.result])}, not ${resultTitles(test, [result])}.`,
          'Answer with the result whose band holds the reading.',
        );
  }
  switch (held.code) {
    case 'reference-zero':
      return unusableReference(test);
    case 'reference-missing':
      return refusal(held.code, held.message, 'Take that reading first.');
    case 'no-bands':
    case 'no-band':
      return refusal(held.code, held.message, 'Mend the bands of this test in the tree.');
  }
}

function unusableReference({ title }: Test): Refusal {
  return refusal(
    'reference-unusable',
    `“${title}” is judged against an earlier reading that was zero or beyond the meter’s range.`,
    'Correct that reading or take it again; else skip this test or turn to another.',
  );
}
