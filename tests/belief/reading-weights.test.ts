import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { defaultAccuracy, readingWeights, type ReadingWeights } from '../../trees/belief/index.ts';
import { INSTRUMENTS } from '../../trees/document/index.ts';
import { smallTree } from '../support/trees.ts';
import { arbitraryCase, testOf } from './arbitrary-case.ts';

const RAIL_IN = testOf(smallTree(), 'rail-in');
const RAIL_FAR = testOf(smallTree(), 'rail-far');
const VOLTS = defaultAccuracy('dc-volts');

function weighed(...given: Parameters<typeof readingWeights>): ReadingWeights {
  const result = readingWeights(...given);
  if (!result.ok) throw new Error(result.message);
  return result;
}

/** The same probability by Simpson's rule over the density, which the code under test does not use. */
function integral(mean: number, deviation: number, from: number, to: number): number {
  const low = Math.max(from, mean - 12 * deviation);
  const high = Math.min(to, mean + 12 * deviation);
  if (low >= high) return 0;
  const pieces = 4000;
  const step = (high - low) / pieces;
  let sum = 0;
  for (let index = 0; index <= pieces; index += 1) {
    const z = (low + index * step - mean) / deviation;
    const factor = index === 0 || index === pieces ? 1 : index % 2 === 1 ? 4 : 2;
    sum += factor * Math.exp((-z * z) / 2);
  }
  return (sum * step) / 3 / (deviation * Math.sqrt(2 * Math.PI));
}

describe('weights', () => {
  test('they are the normal distribution’s share of each band, as a plain integral gives it (1e-9)', () => {
    fc.assert(
      fc.property(fc.double({ min: 4.6, max: 5.4, noNaN: true }), (value) => {
        const { weights } = weighed(RAIL_IN, { value, accuracy: VOLTS });
        const u = (0.005 * value + 0.005) / Math.sqrt(3);
        expect(Math.abs((weights['low'] ?? -1) - integral(value, u, -Infinity, 4.75))).toBeLessThan(1e-9);
        expect(Math.abs((weights['good'] ?? -1) - integral(value, u, 4.75, 5.25))).toBeLessThan(1e-9);
      }),
    );
  });

  test('a band far above the reading keeps its digits: six uncertainties out it has 9.8659e-10', () => {
    const accuracy = { percent: 0, constant: 0.01 * Math.sqrt(3) };
    const { weights } = weighed(RAIL_IN, { value: 5.25 - 0.06, accuracy });
    expect((weights['high'] ?? 0) / 9.865876450376981e-10).toBeCloseTo(1, 9);
  });

  test('they sum to one within 1e-12 on any test and reading', () => {
    fc.assert(
      fc.property(arbitraryCase(), ({ tree, answers }) => {
        for (const answer of answers) {
          if ('result' in answer) continue;
          const { weights } = weighed(testOf(tree, answer.test), answer, answer.reference);
          const sum = Object.values(weights).reduce((a, b) => a + b, 0);
          expect(Math.abs(sum - 1)).toBeLessThan(1e-12);
        }
      }),
    );
  });

  test('an instrument without error puts all weight on the band that holds the value, limits included', () => {
    const accuracy = { percent: 0, constant: 0 };
    expect(weighed(RAIL_IN, { value: 4.75, accuracy }).weights).toEqual({ good: 1, low: 0, high: 0 });
    expect(weighed(RAIL_IN, { value: 5.25, accuracy }).weights).toEqual({ good: 0, low: 0, high: 1 });
  });

  test('OL is all on the band without an upper limit', () => {
    const reading = { value: 'OL' as const, accuracy: VOLTS };
    expect(weighed(RAIL_IN, reading)).toMatchObject({ weights: { high: 1 }, holds: 'high', tooClose: false });
  });

  test('ratio bands are limits at the ratio times the earlier reading, on a negative rail too', () => {
    const at = (value: number, reference: number) =>
      weighed(RAIL_FAR, { value, accuracy: { percent: 0, constant: 0.02 } }, reference);
    expect(at(4.8, 5).weights['good']).toBeCloseTo(0.5, 9);
    expect(at(-11.9, -12)).toMatchObject({ holds: 'good', tooClose: false });
    expect(at(-11.0, -12)).toMatchObject({ holds: 'drop', tooClose: false });
  });

  test('a ratio cannot be had without the earlier reading, nor from one of zero', () => {
    const reading = { value: 4.8, accuracy: VOLTS };
    expect(readingWeights(RAIL_FAR, reading)).toMatchObject({ ok: false, code: 'reference-missing' });
    expect(readingWeights(RAIL_FAR, reading, 0)).toMatchObject({ ok: false, code: 'reference-zero' });
  });
});

describe('too close to call', () => {
  const accuracy = { percent: 0, constant: 0.01 * Math.sqrt(3) };

  test('a reading is clear from 1.65 uncertainties inside a limit and not at 1.64', () => {
    expect(weighed(RAIL_IN, { value: 4.75 + 0.0165, accuracy }).tooClose).toBe(false);
    expect(weighed(RAIL_IN, { value: 4.75 + 0.0164, accuracy }).tooClose).toBe(true);
  });

  test('the walk follows the band that holds the value even then', () => {
    expect(weighed(RAIL_IN, { value: 4.7499, accuracy })).toMatchObject({ holds: 'low', tooClose: true });
  });
});

test('every instrument has an accuracy, and what is measured never has none', () => {
  for (const instrument of INSTRUMENTS) {
    const { percent, constant } = defaultAccuracy(instrument);
    const sensed = ['eye', 'ear', 'hand'].includes(instrument);
    expect(percent > 0 && constant > 0).toBe(!sensed);
  }
});
