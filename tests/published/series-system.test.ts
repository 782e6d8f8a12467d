import fc from 'fast-check';
import { expect, test } from 'vitest';
import { planExact } from '../../trees/plan/index.ts';
import { questionOf, totalWith } from './question-of.ts';
import values from './values/series-system.json' with { type: 'json' };

/**
 * How likely the system is sound, so that there is something to tell. Then every part is tested whatever the order, and
 * that much of the total is the sum of all minutes; the rest is the series system's own.
 */
const SOUND = 0.001;

interface Parts {
  readonly minutes: readonly number[];
  readonly failureProbability: readonly number[];
}

test(`four parts: ${values.source} (${values.basis})`, () => {
  const { minutes, expected, tolerance } = values;
  const plan = planExact(systemOf(values));
  const whole = withSound(expected.minutes, minutes);
  expect(Math.abs(plan.expectedTotal - whole)).toBeLessThanOrEqual(tolerance);
  const [first = 0] = expected.order;
  expect(plan.actions[0]?.id).toBe(partId(first));
  expect(Math.abs(untilFailure(values, expected.order) - expected.minutes)).toBeLessThanOrEqual(tolerance);
});

test(`any parts are best in order of minutes over failure probability, within 1e-9: ${values.source}`, () => {
  const part = fc.record({
    minutes: fc.integer({ min: 1, max: 40 }).map((quarters) => quarters / 4),
    fails: fc.integer({ min: 1, max: 19 }).map((twentieths) => twentieths / 20),
  });
  fc.assert(
    fc.property(fc.array(part, { minLength: 1, maxLength: 6 }), (drawn) => {
      const parts = {
        minutes: drawn.map(({ minutes }) => minutes),
        failureProbability: drawn.map(({ fails }) => fails),
      };
      const ratio = (place: number) =>
        (parts.minutes[place] ?? 0) / (parts.failureProbability[place] ?? Number.NaN);
      const order = [...drawn.keys()].toSorted((a, b) => ratio(a) - ratio(b));
      const plan = planExact(systemOf(parts));
      const expected = withSound(untilFailure(parts, order), parts.minutes);
      expect(Math.abs(plan.expectedTotal - expected)).toBeLessThanOrEqual(1e-9);
      expect(Math.abs(totalWith(plan, partId(order[0] ?? 0)) - expected)).toBeLessThanOrEqual(1e-9);
    }),
    { numRuns: 100 },
  );
});

/** Finding `system`: each part fails its test with its own probability, independently; one failure says all. */
function systemOf({ minutes, failureProbability }: Parts) {
  const shares = failureProbability.map((fails, place) => [partId(place), { passes: 1 - fails, fails }]);
  const sound = failureProbability.map((_, place) => [partId(place), 'passes']);
  const tests = minutes.map((cost, place) => [
    partId(place),
    { results: ['passes', 'fails'], minutes: cost },
  ]);
  return questionOf({
    goal: 'isolate',
    weights: { sound: SOUND, system: 1 - SOUND },
    tests: Object.fromEntries(tests),
    expects: { sound: Object.fromEntries(sound), system: Object.fromEntries(shares) },
  });
}

/** Expected minutes until the first failure, or until all have passed. */
function untilFailure({ minutes, failureProbability }: Parts, order: readonly number[]): number {
  let total = 0;
  let reached = 1;
  for (const place of order) {
    total += reached * (minutes[place] ?? Number.NaN);
    reached *= 1 - (failureProbability[place] ?? Number.NaN);
  }
  return total;
}

function withSound(expected: number, minutes: readonly number[]): number {
  return (1 - SOUND) * expected + SOUND * minutes.reduce((sum, each) => sum + each, 0);
}

function partId(place: number): string {
  return `part-${String(place)}`;
}
