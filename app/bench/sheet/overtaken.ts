import type { JobEvent } from '../../../trees/chart/index.ts';

/** Why an answer no longer counts: another was put in its place, or a contradiction was settled against it. */
export type Overtaken = 'corrected' | 'dropped';

interface Given {
  readonly at: number;
  readonly result: string;
  readonly era: number;
}

/**
 * For each answer of a job that did not last, by its place among the events, why. An answer given again after a remedy
 * leaves the earlier one as it was: both were true in their time.
 */
export function overtakenAnswers(events: readonly JobEvent[]): ReadonlyMap<number, Overtaken> {
  const overtaken = new Map<number, Overtaken>();
  const standing = new Map<string, readonly Given[]>();
  let era = 0;
  let asked = '';
  for (const [at, event] of events.entries()) {
    if (event.kind === 'remedy-done') era += 1;
    if (event.kind === 'answer') {
      asked = event.test;
      const before = standing.get(asked)?.filter((one) => one.era === era) ?? [];
      standing.set(asked, [...before, { at, result: event.result, era }]);
    }
    if (event.kind === 'correct') {
      for (const one of standing.get(event.test) ?? []) overtaken.set(one.at, 'corrected');
      standing.set(event.test, [{ at, result: event.result, era }]);
    }
    if (event.kind === 'settle') {
      const given = standing.get(asked) ?? [];
      for (const one of given) if (one.result !== event.result) overtaken.set(one.at, 'dropped');
      standing.set(
        asked,
        given.filter(({ result }) => result === event.result),
      );
    }
  }
  return overtaken;
}
