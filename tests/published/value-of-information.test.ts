import { describe, expect, test } from 'vitest';
import { planExact } from '../../trees/plan/index.ts';
import { questionOf, totalWith, type PlanProblem } from './question-of.ts';
import values from './values/value-of-information.json' with { type: 'json' };

const { wildcatter, blocks } = values;

/**
 * Drilling is a remedy that ends all with `worth` in hand where there is enough oil, and not to drill is to pass on, for want of
 * `worth`. A well worth part of that stands for the chance of so great a part of it, which nothing tells from the rest.
 */
describe(`oil wildcatter: ${wildcatter.source} (${wildcatter.basis})`, () => {
  const { payoff, drilling, expected, tolerance, likelihood, results, testCost } = wildcatter;
  const states = ['dry', 'wet', 'soak'] as const;
  const worth = Math.max(...Object.values(payoff));
  const seismic = (state: (typeof states)[number]) => likelihood[state];
  const oil = (state: (typeof states)[number]) => states.map((each) => (each === state ? 1 : 0));

  const planWith = (minutes: number) =>
    planExact(
      questionOf({
        ...drill(),
        tests: {
          seismic: { results, minutes },
          oil: { results: states, minutes: 0 },
          works: { results: ['yes', 'no'], minutes: 0 },
        },
      }),
    );

  test('drilling at once is worth what is printed, and so is passing on', () => {
    const plan = planWith(testCost);
    const drillNow = totalWith(plan, 'rich');
    expect(Math.abs(worth - drillNow - expected.value)).toBeLessThanOrEqual(tolerance);
    expect(Math.abs(worth - totalWith(plan, 'pass-on'))).toBeLessThanOrEqual(tolerance);
  });

  test('to know the oil is worth what is printed', () => {
    const plan = planWith(testCost);
    expect(Math.abs(worth - totalWith(plan, 'oil') - expected.withPerfectOil)).toBeLessThanOrEqual(tolerance);
    const gain = totalWith(plan, 'rich') - totalWith(plan, 'oil');
    expect(Math.abs(gain - expected.perfect)).toBeLessThanOrEqual(tolerance);
  });

  test('the seismic test is worth less than it costs', () => {
    const problem = drill();
    const alone = (minutes: number) =>
      planExact(
        questionOf({
          ...problem,
          tests: { seismic: { results, minutes }, works: { results: ['yes', 'no'], minutes: 0 } },
        }),
      );
    const free = alone(0);
    const gain = totalWith(free, 'rich') - totalWith(free, 'seismic');
    expect(Math.abs(gain - expected.sample)).toBeLessThanOrEqual(tolerance);
    expect(free.actions[0]?.id).toBe('seismic');
    const dear = alone(testCost);
    expect(dear.actions[0]?.id).toBe('rich');
    expect(Math.abs(totalWith(dear, 'seismic') - totalWith(free, 'seismic') - testCost)).toBeLessThanOrEqual(
      tolerance,
    );
  });

  function drill(): PlanProblem {
    const rich = (state: (typeof states)[number]) => wildcatter.probability[state] * (payoff[state] / worth);
    const poor = (state: (typeof states)[number]) => wildcatter.probability[state] - rich(state);
    const mixed = (part: typeof rich, rows: (state: (typeof states)[number]) => readonly number[]) => {
      const whole = sum(states.map(part));
      return (place: number) =>
        sum(states.map((state) => part(state) * (rows(state)[place] ?? Number.NaN))) / whole;
    };
    const expects = (part: typeof rich) => ({
      seismic: shares(results, mixed(part, seismic)),
      oil: shares(states, mixed(part, oil)),
      works: 'no',
    });
    const never = 100_000;
    return {
      goal: 'fix',
      weights: { rich: sum(states.map(rich)), poor: sum(states.map(poor)) },
      expects: { rich: expects(rich), poor: expects(poor) },
      remedies: {
        rich: { minutes: sum(drilling.map(([share = 0, cost = 0]) => share * cost)) },
        poor: { minutes: never },
      },
      prove: ['works'],
      defaults: { escalate: worth },
    };
  }
});

/** To buy a block is a remedy that can be had once: the deal then stands, and no changeover leads out of it. */
test(`the survey of one block: ${blocks.source} (${blocks.basis})`, () => {
  const { count, worth, expected, tolerance } = blocks;
  const ids = Array.from({ length: count }, (_, place) => `block-${String(place)}`);
  const states = Object.fromEntries(['open', ...ids].map((id) => [id, { title: id }]));
  const price = worth / count;
  const plan = planExact(
    questionOf({
      goal: 'fix',
      weights: Object.fromEntries(ids.map((id) => [id, 1])),
      tests: {
        survey: { results: ['nothing', 'oil'], minutes: 0 },
        works: { results: ['yes', 'no'], minutes: 0 },
      },
      expects: Object.fromEntries(
        ids.map((id, place) => [id, { survey: place === 2 ? 'oil' : 'nothing', works: 'no' }]),
      ),
      remedies: Object.fromEntries(ids.map((id) => [id, { minutes: price, needs: { deal: id } }])),
      prove: ['works'],
      bench: {
        deal: {
          title: 'Deal',
          start: 'open',
          states,
          changes: ids.map((to) => ({ from: 'open', to, minutes: 0, say: 'Buy it.' })),
        },
      },
      defaults: { escalate: worth },
    }),
  );
  expect(Math.abs(totalWith(plan, 'pass-on') - worth)).toBeLessThanOrEqual(tolerance);
  for (const id of ids) expect(Math.abs(totalWith(plan, id) - worth)).toBeLessThanOrEqual(tolerance);
  expect(Math.abs(worth - totalWith(plan, 'survey') - expected)).toBeLessThanOrEqual(tolerance);
});

function shares(results: readonly string[], share: (place: number) => number): Record<string, number> {
  return Object.fromEntries(results.map((result, place) => [result, share(place)]));
}

function sum(values: readonly number[]): number {
  return values.reduce((a, b) => a + b, 0);
}
