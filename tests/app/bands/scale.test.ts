import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { marksOf, roundStep, scaleFor } from '../../../app/editor/bands/scale.ts';

describe('the line of a test’s limits', () => {
  it('is in proportion for a rail’s limits, and by decades for a resistance’s', () => {
    expect(scaleFor([0.4, 3.135, 3.465], []).kind).toBe('linear');
    expect(scaleFor([20, 1000, 1e6], []).kind).toBe('decades');
  });

  it('is in proportion where a limit is not above zero, however far apart they are', () => {
    expect(scaleFor([-0.5, 0.5, 4.25], []).kind).toBe('linear');
    expect(scaleFor([0, 1e6], []).kind).toBe('linear');
  });

  it('with one limit goes by how far apart the readings are', () => {
    expect(scaleFor([1], [0.4, 0.6]).kind).toBe('linear');
    expect(scaleFor([1], [0.4, 5e5, 2e6]).kind).toBe('decades');
  });

  it('leaves room beside the outermost limits, more where readings lie there, but not for any reading', () => {
    const bare = scaleFor([3, 4], []);
    expect([bare.low, bare.high]).toEqual([2.7, 4.3]);
    expect(scaleFor([3, 4], [4.9]).high).toBe(5);
    expect(scaleFor([3, 4], [900]).high).toBe(5.5);
    expect(scaleFor([3, 4], [Infinity]).high).toBe(4.3);
  });

  it('can be drawn without any limit or reading', () => {
    const scale = scaleFor([], []);
    expect(scale.high).toBeGreaterThan(scale.low);
    expect(scaleFor([5], []).place(5)).toBeCloseTo(0.5, 12);
    expect(scaleFor([0], []).place(0)).toBeCloseTo(0.5, 12);
  });

  it('puts a value back where it came from, in order (within a millionth of the line)', () => {
    const limit = fc.double({ min: 0.001, max: 1e7, noNaN: true });
    const drawn = fc.tuple(
      fc.array(limit, { minLength: 1, maxLength: 5 }),
      fc.double({ min: 0, max: 1, noNaN: true }),
    );
    fc.assert(
      fc.property(drawn, ([limits, place]) => {
        const scale = scaleFor(limits, []);
        expect(Math.abs(scale.place(scale.value(place)) - place)).toBeLessThan(1e-6);
        for (const at of limits) expect(scale.place(at)).toBeGreaterThan(0);
        for (const at of limits) expect(scale.place(at)).toBeLessThan(1);
        expect(scale.place(Infinity)).toBe(1);
        expect(scale.place(-Infinity)).toBe(0);
      }),
    );
  });

  it('has a few round marks within its ends', () => {
    expect(marksOf(scaleFor([0.4, 3.135, 3.465], []))).toEqual([0, 1, 2, 3, 4]);
    expect(marksOf(scaleFor([20, 1000, 1e6], []))).toEqual([10, 100, 1000, 1e4, 1e5, 1e6]);
    fc.assert(
      fc.property(
        fc.double({ min: 1e-6, max: 1e9, noNaN: true }),
        fc.double({ min: 1, max: 1e9, noNaN: true }),
        (low, times) => {
          const scale = scaleFor([low, low * times], []);
          const marks = marksOf(scale);
          expect(marks.length).toBeGreaterThan(0);
          expect(marks.length).toBeLessThanOrEqual(8);
          const slack = 1e-9 * (scale.high - scale.low);
          expect(Math.min(...marks)).toBeGreaterThanOrEqual(scale.low - slack);
          expect(Math.max(...marks)).toBeLessThanOrEqual(scale.high + slack);
        },
      ),
    );
  });

  it('rounds steps up to 1, 2 or 5 of a power of ten', () => {
    expect([0.011, 0.02, 0.3, 7, 10].map(roundStep)).toEqual([0.02, 0.02, 0.5, 10, 10]);
  });
});
