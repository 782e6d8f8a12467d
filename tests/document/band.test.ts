import { describe, expect, it } from 'vitest';
import fc from 'fast-check';
import { bandsOf, limitsOf, referenceOf, resultOf, type Test } from '../../trees/document/index.ts';
import { arbitraryTree } from '../support/arbitrary-tree.ts';
import { smallTree } from '../support/trees.ts';
import { mustHave } from './parts.ts';

const { tests } = smallTree();
const railIn = mustHave(tests['rail-in']);
const railFar = mustHave(tests['rail-far']);
const tone = mustHave(tests['tone']);

describe('a measured test', () => {
  it('sorts its bands from the lowest up, open ends infinite', () => {
    expect(bandsOf(railIn)).toEqual([
      { result: 'low', from: -Infinity, to: 4.75 },
      { result: 'good', from: 4.75, to: 5.25 },
      { result: 'high', from: 5.25, to: Infinity },
    ]);
  });

  it.each([
    [-3, 'low'],
    [4.7499, 'low'],
    [4.75, 'good'],
    [5.2499, 'good'],
    [5.25, 'high'],
    [1e300, 'high'],
    ['OL', 'high'],
  ] as const)('puts %s in the band %s: a limit belongs to the band above it', (value, result) => {
    expect(resultOf(railIn, value)).toEqual({ ok: true, result });
  });

  it('holds a ratio against the earlier reading', () => {
    expect(referenceOf(railFar)).toBe('rail-in');
    expect(resultOf(railFar, 4.8, 5)).toEqual({ ok: true, result: 'good' });
    expect(resultOf(railFar, 4.79, 5)).toEqual({ ok: true, result: 'drop' });
    expect(resultOf(railFar, 'OL', 5)).toEqual({ ok: true, result: 'good' });
  });

  it('turns ratio limits round on a negative rail, where a drop is a reading nearer to zero', () => {
    expect(resultOf(railFar, -4.8, -5)).toEqual({ ok: true, result: 'good' });
    expect(resultOf(railFar, -4.79, -5)).toEqual({ ok: true, result: 'drop' });
    expect(limitsOf(railFar, -5)).toEqual({
      ok: true,
      limits: [
        { result: 'good', from: -Infinity, to: -4.8 },
        { result: 'drop', from: -4.8, to: Infinity },
      ],
    });
  });

  it('says why no band can be named, and looks at the reference for ratios only', () => {
    expect(resultOf(railFar, 4.8)).toMatchObject({ ok: false, code: 'reference-missing' });
    expect(resultOf(railFar, 4.8, 0)).toMatchObject({ ok: false, code: 'reference-zero' });
    expect(resultOf(railIn, Number.NaN)).toMatchObject({ ok: false, code: 'no-band' });
    expect(resultOf(railIn, 5, 0)).toEqual({ ok: true, result: 'good' });
    expect(resultOf(railIn, 5, -1)).toEqual({ ok: true, result: 'good' });
  });

  it('has exactly one band for every reading, and limits that hold it', () => {
    const reading = fc.double({ noNaN: true, noDefaultInfinity: true, min: -12, max: 12 });
    fc.assert(
      fc.property(arbitraryTree(), reading, reading, (tree, value, reference) => {
        for (const test of Object.values(tree.tests).filter(isMeasured)) {
          if (reference === 0 && referenceOf(test) !== undefined) continue;
          const held = mustResult(test, value, reference);
          const found = limitsOf(test, reference);
          const holding = found.ok ? found.limits.filter(({ from, to }) => from <= value && value <= to) : [];
          expect(holding.map(({ result }) => result)).toContain(held);
        }
      }),
    );
  });
});

describe('a test that is answered by choosing', () => {
  it('has no bands', () => {
    expect(bandsOf(tone)).toEqual([]);
    expect(resultOf(tone, 1)).toMatchObject({ ok: false, code: 'no-bands' });
  });
});

function isMeasured(test: Test): boolean {
  return test.reading !== undefined;
}

function mustResult(test: Test, value: number, reference: number): string {
  const held = resultOf(test, value, reference);
  if (!held.ok) throw new Error(`${held.code} at ${String(value)} with reference ${String(reference)}`);
  return held.result;
}
