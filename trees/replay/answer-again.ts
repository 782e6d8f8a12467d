import { referenceValue, type Answer, type JobEvent, type JobState, type Purpose } from '../chart/index.ts';
import { own, resultOf, type Test, type Tree } from '../document/index.ts';
import type { RecordedJob } from './recorded.ts';

/** Why a test that is asked gets no answer from what the job recorded. */
export type Wanting =
  /** The job never made this test, or not since the remedy before. */
  | 'never-made'
  /** It was answered by choosing and is measured now. */
  | 'not-measured'
  /** It was measured in another unit. */
  | 'other-unit'
  /** The result that was chosen is no longer one of the test's. */
  | 'result-dropped'
  /** Its bands are ratios to a reading that was zero or beyond the meter's range. */
  | 'no-band';

/** What the job has to say to a test. */
export type Again =
  | { readonly kind: 'event'; readonly event: JobEvent & { readonly kind: 'answer' | 'skip' } }
  | { readonly kind: 'wanting'; readonly because: Wanting; readonly result?: string };

/**
 * The recorded answer to a test that a chart asks now, as an event that the chart takes: a raw reading is sorted into the
 * bands of the tree asked on, a chosen result goes by its id. Answers count by their era, the number of remedies done
 * before: a proof and an interlock want one of this era, a step takes an earlier one that still stood. A test that was
 * skipped is skipped again, going on as it did.
 */
export function answerAgain(
  tree: Tree,
  job: JobState,
  recorded: RecordedJob,
  id: string,
  purpose: Purpose['kind'],
): Again {
  const test = own(tree.tests, id);
  const era = recorded.eras[job.era];
  if (test === undefined || era === undefined) return wanting('never-made');
  const answer = era.answers.get(id);
  const isAnew = purpose === 'proof' || purpose === 'interlock';
  if (answer !== undefined && (!isAnew || answer.era === job.era)) {
    return test.reading === undefined
      ? chosenAgain(test, answer)
      : measuredAgain(tree, job, test, answer, unitOf(recorded, id));
  }
  const skip = isAnew ? undefined : era.skips.get(id);
  if (skip === undefined) return wanting('never-made');
  const { as, reason } = skip;
  if (as !== undefined && own(test.results, as) === undefined) return wanting('result-dropped', as);
  return {
    kind: 'event',
    event: { kind: 'skip', test: id, reason, ...(as === undefined ? {} : { as }) },
  };
}

function chosenAgain({ results }: Test, { test, result }: Answer): Again {
  return own(results, result) === undefined
    ? wanting('result-dropped', result)
    : { kind: 'event', event: { kind: 'answer', test, result } };
}

function measuredAgain(
  tree: Tree,
  job: JobState,
  asked: Test,
  { test, result, reading }: Answer,
  unit: string | undefined,
): Again {
  if (reading === undefined) return wanting('not-measured', result);
  if (unit !== asked.reading?.unit) return wanting('other-unit', result);
  const reference = referenceValue(tree, job, test);
  const held = reference === 'OL' ? null : resultOf(asked, reading.value, reference);
  if (held?.ok !== true) return wanting('no-band');
  return { kind: 'event', event: { kind: 'answer', test, result: held.result, reading } };
}

/** The unit that the job's own tree measures a test in. */
function unitOf({ record }: RecordedJob, test: string): string | undefined {
  return own(record.chart.tree.tests, test)?.reading?.unit;
}

function wanting(because: Wanting, result?: string): Again {
  return { kind: 'wanting', because, ...(result === undefined ? {} : { result }) };
}
