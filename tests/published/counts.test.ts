import { describe, expect, it, test } from 'vitest';
import {
  betaInterval,
  binomialTails,
  binomialTest,
  chiSquare,
  exactInterval,
  fisherExact,
  holm,
  rateOf,
  type TwoByTwo,
} from '../../trees/statistics/index.ts';
import { deviationsOf } from '../../trees/statistics/deviations-of.ts';
import values from './values/counts.json' with { type: 'json' };

const { wilson, exact, placentaPrevia, poll1988 } = values;

const near = (value: number, expected: number, tolerance: number): void => {
  expect(Math.abs(value - expected)).toBeLessThanOrEqual(tolerance);
};

describe(`the interval of a share: ${wilson.source} (${wilson.basis})`, () => {
  test.each(wilson.rows)('$count of $of lies from $low to $high', ({ count, of, low, high }) => {
    const rate = rateOf(count, of, wilson.confidence);
    near(rate.low, low, wilson.tolerance);
    near(rate.high, high, wilson.tolerance);
  });
});

test(`the exact interval of a share: ${exact.source} (${exact.basis})`, () => {
  const { low, high } = exactInterval(exact.count, exact.of, exact.confidence);
  near(low, exact.low, exact.tolerance);
  near(high, exact.high, exact.tolerance);
});

describe(`placenta previa: ${placentaPrevia.source} (${placentaPrevia.basis})`, () => {
  const { count, of, expected, tolerance, precise, preciseTolerance } = placentaPrevia;
  const posterior = betaInterval(1 + count, 1 + of - count);

  it('has the printed mean, standard deviation and central 95 % interval', () => {
    near(posterior.mean, expected.mean, tolerance);
    near(posterior.deviation, expected.deviation, tolerance);
    near(posterior.low, expected.low, tolerance);
    near(posterior.high, expected.high, tolerance);
  });

  it('agrees with the worked solution to its last digit', () => {
    near(posterior.mean, precise.mean, preciseTolerance);
    near(posterior.low, precise.low, preciseTolerance);
    near(posterior.high, precise.high, preciseTolerance);
  });
});

test(`a beta tail as a binomial one: ${poll1988.source} (${poll1988.basis})`, () => {
  const [first = 0, second = 0] = poll1988.posterior;
  const { atMost } = binomialTails(first - 1, first + second - 1, 0.5);
  expect(atMost).toBeGreaterThan(poll1988.atLeast);
  near(atMost, poll1988.recomputed, poll1988.tolerance);
});

describe('the exact binomial test', () => {
  test.each(values.binomialTest.rows)(
    '$count of $of against $chance: $source ($basis)',
    ({ count, of, chance, p, tolerance }) => {
      near(binomialTest(count, of, chance), p, tolerance);
    },
  );
});

describe('Fisher’s exact test', () => {
  test.each(values.fisher.rows)('$table: $source ($basis)', ({ table, p, tolerance }) => {
    const [[a = 0, b = 0] = [], [c = 0, d = 0] = []] = table;
    const counts: TwoByTwo = [
      [a, b],
      [c, d],
    ];
    near(fisherExact(counts), p, tolerance);
  });
});

describe(`chi-square with one degree of freedom: ${values.chiSquare.source} (${values.chiSquare.basis})`, () => {
  test.each(values.chiSquare.rows)('$statistic has the chance $chance', ({ statistic, chance }) => {
    // A table of four fields n ± d has the statistic 4 d² / n.
    const [n, d] = [100, Math.sqrt(statistic * 25)];
    const tested = chiSquare([
      [n + d, n - d],
      [n - d, n + d],
    ]);
    near(tested.statistic, statistic, 1e-9);
    near(tested.chance, chance, values.chiSquare.tolerance);
  });
});

describe(`points of the normal distribution: ${values.normal.source} (${values.normal.basis})`, () => {
  test.each(values.normal.rows)('$confidence lies within $deviations', ({ confidence, deviations }) => {
    near(deviationsOf(confidence), deviations, values.normal.tolerance);
  });
});

test(`Holm’s correction: ${values.holm.source} (${values.holm.basis})`, () => {
  const corrected = holm(values.holm.chances);
  expect(corrected).toHaveLength(values.holm.corrected.length);
  corrected.forEach((chance, index) => {
    near(chance, values.holm.corrected[index] ?? -1, values.holm.tolerance);
  });
});
