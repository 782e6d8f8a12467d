import fc from 'fast-check';
import { expect, test } from 'vitest';
import { planExact } from '../../trees/plan/index.ts';
import { questionOf, totalWith, type PlanProblem } from './question-of.ts';
import values from './values/repair-order.json' with { type: 'json' };

const { twoComponents, twoCauses, order } = values;

test(`two components: ${twoComponents.source} (${twoComponents.basis})`, () => {
  const { weights, minutes, expected, tolerance } = twoComponents;
  const plan = planExact(questionOf(remediesAlone(weights, minutes, { escalate: 1000 })));
  const [first = 0, second = 0] = expected.order;
  expect(plan.actions[0]?.id).toBe(causeId(first));
  expect(Math.abs(plan.expectedTotal - expected.best)).toBeLessThanOrEqual(tolerance);
  expect(Math.abs(totalWith(plan, causeId(second)) - expected.other)).toBeLessThanOrEqual(tolerance);
});

test(`two causes, each checked before it is repaired: ${twoCauses.source} (${twoCauses.basis})`, () => {
  const { expected, tolerance } = twoCauses;
  const plan = planExact(questionOf(checkedFirst(twoCauses)));
  expect(plan.actions[0]?.id).toBe(checkId(expected.first));
  for (const [place, total] of expected.checkFirst.entries()) {
    expect(Math.abs(totalWith(plan, checkId(place)) - total)).toBeLessThanOrEqual(tolerance);
  }
});

test(`check 1 first if and only if its cost over its probability is the lower: ${twoCauses.source}`, () => {
  const cost = fc.integer({ min: 1, max: 99 });
  const drawn = fc.record({
    percent: fc.integer({ min: 1, max: 99 }),
    check: fc.tuple(cost, cost),
    repair: fc.tuple(cost, cost),
  });
  fc.assert(
    fc.property(drawn, ({ percent, check, repair }) => {
      fc.pre(check[0] * (100 - percent) !== check[1] * percent);
      const plan = planExact(questionOf(checkedFirst({ probability: percent / 100, check, repair })));
      const isFirst = check[0] / percent < check[1] / (100 - percent);
      expect(plan.actions[0]?.id).toBe(checkId(isFirst ? 0 : 1));
    }),
    { numRuns: 100 },
  );
});

test(`remedies alone, and passing on where no more is worth it, within 1e-9: ${order.source} (${order.basis})`, () => {
  const remedy = fc.record({
    weight: fc.integer({ min: 1, max: 20 }),
    quarters: fc.integer({ min: 1, max: 120 }),
  });
  const drawn = fc.record({
    remedies: fc.array(remedy, { minLength: 1, maxLength: 6 }),
    unlisted: fc.constantFrom(0, 0.02, 0.2),
    fixRate: fc.constantFrom(0.5, 0.9, 1),
    escalate: fc.integer({ min: 2, max: 120 }),
  });
  fc.assert(
    fc.property(drawn, ({ remedies, ...defaults }) => {
      const weights = remedies.map(({ weight }) => weight);
      const minutes = remedies.map(({ quarters }) => quarters / 4);
      const whole = weights.reduce((sum, weight) => sum + weight, 0);
      const mends = weights.map((weight) => (weight / whole) * (1 - defaults.unlisted) * defaults.fixRate);
      const expected = leastInOrder(mends, minutes, defaults.escalate);
      const plan = planExact(questionOf(remediesAlone(weights, minutes, defaults)));
      expect(Math.abs(plan.expectedTotal - expected)).toBeLessThanOrEqual(1e-9 * Math.max(1, expected));
    }),
    { numRuns: 200 },
  );
});

/** Of all sets of remedies, each in order of probability over minutes and then passed on, the one that expects the least. */
function leastInOrder(mends: readonly number[], minutes: readonly number[], escalate: number): number {
  const ratio = (place: number) => (mends[place] ?? 0) / (minutes[place] ?? Number.NaN);
  const ordered = [...mends.keys()].toSorted((a, b) => ratio(b) - ratio(a));
  const from = (rest: readonly number[], left: number): number => {
    const [place, ...later] = rest;
    if (place === undefined) return left * escalate;
    const without = from(later, left);
    return Math.min(without, left * (minutes[place] ?? 0) + from(later, left - (mends[place] ?? 0)));
  };
  return from(ordered, 1);
}

function remediesAlone(
  weights: readonly number[],
  minutes: readonly number[],
  defaults: NonNullable<PlanProblem['defaults']>,
): PlanProblem {
  return {
    goal: 'fix',
    weights: Object.fromEntries(weights.map((weight, place) => [causeId(place), weight])),
    remedies: Object.fromEntries(minutes.map((each, place) => [causeId(place), { minutes: each }])),
    defaults,
  };
}

/**
 * A cause can be repaired only where its check has found it: its remedy needs a bench state that an interlock bars until
 * then. A check that finds nothing leaves the other cause, which the problem wants checked all the same.
 */
function checkedFirst(given: {
  readonly probability: number;
  readonly check: readonly number[];
  readonly repair: readonly number[];
}): PlanProblem {
  const places = [0, 1];
  const byPlace = <V>(id: (place: number) => string, value: (place: number) => V) =>
    Object.fromEntries(places.map((place) => [id(place), value(place)]));
  const shares = [given.probability, 1 - given.probability];
  const finds = (cause: number) => byPlace(checkId, (place) => (place === cause ? 'found' : 'sound'));
  return {
    goal: 'fix',
    weights: byPlace(causeId, (place) => shares[place] ?? Number.NaN),
    tests: {
      ...byPlace(checkId, (place) => ({
        results: ['sound', 'found'],
        minutes: given.check[place] ?? Number.NaN,
      })),
      works: { results: ['yes', 'no'], minutes: 0 },
    },
    expects: byPlace(causeId, (place) => ({ ...finds(place), works: 'no' })),
    remedies: byPlace(causeId, (place) => ({
      minutes: given.repair[place] ?? Number.NaN,
      needs: { [causeId(place)]: 'in-hand' },
    })),
    prove: ['works'],
    bench: byPlace(causeId, () => inHand()),
    interlocks: places.map((place) => ({
      change: { [causeId(place)]: 'in-hand' },
      until: { [checkId(place)]: ['found'] },
      because: 'Checked before it is repaired.',
    })),
    defaults: { escalate: 10_000 },
  };
}

function inHand(): NonNullable<PlanProblem['bench']>[string] {
  return {
    title: 'Cause',
    start: 'apart',
    states: { apart: { title: 'Apart' }, 'in-hand': { title: 'In hand' } },
    changes: [
      { from: 'apart', to: 'in-hand', minutes: 0, say: 'Take it in hand.' },
      { from: 'in-hand', to: 'apart', minutes: 0, say: 'Leave it.' },
    ],
  };
}

function causeId(place: number): string {
  return `cause-${String(place)}`;
}

function checkId(place: number): string {
  return `check-${String(place)}`;
}
