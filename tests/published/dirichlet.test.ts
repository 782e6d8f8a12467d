import { describe, expect, test } from 'vitest';
import { beliefOf, chosen } from '../../trees/belief/index.ts';
import { modelOf, product, SYMPTOM } from './model-of.ts';
import values from './values/dirichlet.json' with { type: 'json' };

const { placentaPrevia, poll1988, textClasses } = values;

describe(`placenta previa: ${placentaPrevia.source} (${placentaPrevia.basis})`, () => {
  const { prior, counts, expected, tolerance } = placentaPrevia;

  test('the posterior mean, as the probability of a finding', () => {
    const [mean = 0] = posteriorMeans(prior, counts);
    expect(Math.abs(mean - expected.mean)).toBeLessThanOrEqual(tolerance.mean);
    expect(Math.abs(mean - expected.precise)).toBeLessThanOrEqual(tolerance.precise);
  });

  test('the same mean, as the probability of a result of which the author has said nothing', () => {
    const [girl = 0, boy = 0] = counts;
    const model = modelOf({
      weights: { birth: 1 },
      tests: { sex: ['girl', 'boy'] },
      history: { results: { sex: { birth: { girl, boy } } } },
    });
    const mean = model.test('sex').probability[0] ?? 0;
    expect(Math.abs(mean - expected.precise)).toBeLessThanOrEqual(tolerance.precise);
  });
});

test(`poll of 1988, posterior means and their difference: ${poll1988.source} (${poll1988.basis})`, () => {
  const { prior, counts, expected, tolerance } = poll1988;
  const [first = 0, second = 0, third = 0] = posteriorMeans(prior, counts);
  const total = expected.posterior.reduce((a, b) => a + b, 0);
  for (const [index, mean] of [first, second, third].entries()) {
    expect(Math.abs(mean * total - (expected.posterior[index] ?? 0))).toBeLessThanOrEqual(
      tolerance.posterior,
    );
  }
  expect(Math.abs(first - second - expected.difference)).toBeLessThanOrEqual(tolerance.difference);
});

test(`text classes, one added to each count: ${textClasses.source} (${textClasses.basis})`, () => {
  const { prior, vocabulary, documents, given, expected, tolerance } = textClasses;
  const counted = (word: string, label: string) => {
    const among = documents.filter((document) => document.label === label);
    const present = among.filter((document) => document.words.includes(word)).length;
    return { present, absent: among.length - present };
  };
  const model = modelOf({
    weights: prior,
    tests: Object.fromEntries(vocabulary.map((word) => [word, ['present', 'absent']])),
    history: {
      results: Object.fromEntries(
        vocabulary.map((word) => [word, { china: counted(word, 'china'), other: counted(word, 'other') }]),
      ),
    },
  });
  const results = Object.fromEntries(
    vocabulary.map((word) => [word, given.includes(word) ? 'present' : 'absent']),
  );
  for (const label of ['china', 'other'] as const) {
    const value = product(model, label, results);
    expect(Math.abs(value - expected[label])).toBeLessThanOrEqual(tolerance.exact);
    expect(Math.abs(value - expected.printed[label])).toBeLessThanOrEqual(tolerance.printed);
  }
  const observations = Object.entries(results).map(([word, result]) => chosen(word, result));
  const [likeliest] = beliefOf(model, SYMPTOM, { observations, failed: [] }).findings;
  const share = expected.other / (expected.china + expected.other);
  expect(likeliest?.finding).toBe('other');
  expect(Math.abs((likeliest?.probability ?? 0) - share)).toBeLessThan(1e-6);
});

/** P(f|s) of findings whose prior pseudo-counts and confirmed jobs are given, in that order. */
function posteriorMeans(prior: readonly number[], counts: readonly number[]): number[] {
  const named = (amounts: readonly number[]) =>
    Object.fromEntries(amounts.map((amount, index) => [`f${String(index)}`, amount]));
  const model = modelOf({
    weights: named(prior),
    strength: prior.reduce((a, b) => a + b, 0),
    history: { findings: { [SYMPTOM]: named(counts) } },
  });
  return [...model.prior(SYMPTOM).probability];
}
