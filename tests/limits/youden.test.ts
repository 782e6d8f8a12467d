import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { ENOUGH, figuresAt, youden, type LimitRoom } from '../../trees/limits/index.ts';
import { enoughReadings, isPositive, type Drawn } from './drawn-readings.ts';

const ANYWHERE: LimitRoom = { present: null, above: -Infinity, below: Infinity };

/** So many readings at each place. */
function at(positive: boolean, places: Readonly<Record<number, number>>): readonly Drawn[] {
  return Object.entries(places).flatMap(([place, count]) =>
    Array.from({ length: count }, () => ({ at: Number(place), positive })),
  );
}

describe('the limit with the largest J', () => {
  it('is beaten by no limit anywhere in the room, and J is never below that of no limit', () => {
    let moved = 0;
    fc.assert(
      fc.property(enoughReadings(ENOUGH), fc.integer({ min: -20, max: 24 }), (readings, present) => {
        const room = { present, above: -18, below: 22 };
        const suggestion = youden(readings, isPositive, room);
        if (suggestion.kind !== 'move' && suggestion.kind !== 'stay') return;
        const best = suggestion.kind === 'move' ? suggestion.best : suggestion.present;
        if (suggestion.kind === 'move') moved += 1;
        for (let limit = -17.75; limit < 22; limit += 0.25) {
          const { youden: other } = figuresAt(readings, isPositive, limit);
          expect(other).toBeLessThanOrEqual(best.youden + 1e-12);
        }
        expect(best.youden).toBeGreaterThan(0);
      }),
      { numRuns: 300 },
    );
    expect(moved).toBeGreaterThan(20);
  });

  it('lies between the neighbouring readings it names, within the room, and gives the figures it claims', () => {
    fc.assert(
      fc.property(enoughReadings(ENOUGH), (readings) => {
        const suggestion = youden(readings, isPositive, { present: null, above: -10, below: 15 });
        if (suggestion.kind !== 'move') return;
        const { best, gap } = suggestion;
        expect(best.limit).toBeGreaterThan(Math.max(gap[0], -10));
        expect(best.limit).toBeLessThan(Math.min(gap[1], 15));
        expect(readings.some((reading) => reading.at > gap[0] && reading.at < gap[1])).toBe(false);
        expect(best).toEqual(figuresAt(readings, isPositive, best.limit));
      }),
    );
  });

  it('is halfway between its neighbours, in as few digits as stay well between them', () => {
    const readings = [...at(false, { 2.81: 8 }), ...at(true, { 3.34: 8 })];
    const suggestion = youden(readings, isPositive, ANYWHERE);
    expect(suggestion).toMatchObject({ kind: 'move', gap: [2.81, 3.34], best: { limit: 3, youden: 1 } });
  });

  it('is halfway by decades where the neighbours are decades apart', () => {
    const readings = [...at(false, { 2: 8 }), ...at(true, { 20000: 8 })];
    expect(youden(readings, isPositive, ANYWHERE)).toMatchObject({ kind: 'move', best: { limit: 200 } });
  });

  it('lies beyond the highest value where all of the upper kind read OL', () => {
    const readings = [...at(false, { 2: 8 }), ...at(true, { Infinity: 8 })];
    const suggestion = youden(readings, isPositive, ANYWHERE);
    expect(suggestion).toMatchObject({ kind: 'move', gap: [2, Infinity], best: { youden: 1 } });
    expect(suggestion.kind === 'move' && suggestion.best.limit).toBe(4);
  });

  it('says that the present limit stays where none does better', () => {
    const readings = [...at(false, { 1: 8 }), ...at(true, { 9: 8 })];
    const suggestion = youden(readings, isPositive, { ...ANYWHERE, present: 1.5 });
    expect(suggestion).toMatchObject({ kind: 'stay', present: { limit: 1.5, youden: 1 } });
  });

  it('is of equal ones the nearest to the present limit, then the one in the larger gap', () => {
    // J is the same from 3 on and from 5 on: one more of either kind is right.
    const readings = [...at(false, { 1: 7, 4: 1 }), ...at(true, { 3: 1, 8: 7 })];
    const from = (present: number | null) => {
      const suggestion = youden(readings, isPositive, { ...ANYWHERE, present });
      return suggestion.kind === 'move' ? suggestion.gap : suggestion.kind;
    };
    expect(from(0)).toEqual([1, 3]);
    expect(from(20)).toEqual([4, 8]);
    expect(from(null)).toEqual([4, 8]);
  });

  it('is not suggested from fewer than eight readings on a side, and says how many are missing', () => {
    const readings = [...at(false, { 1: 5 }), ...at(true, { 9: 8 })];
    expect(youden(readings, isPositive, ANYWHERE)).toEqual({
      kind: 'too-few',
      missing: { positives: 0, negatives: 3 },
    });
  });

  it('is not suggested where the readings do not tell the kinds apart', () => {
    const mixed = { 1: 3, 2: 3, 3: 3, 4: 3 };
    const readings = [...at(false, mixed), ...at(true, mixed)];
    expect(youden(readings, isPositive, ANYWHERE)).toMatchObject({ kind: 'not-apart', roc: { area: 0.5 } });
    const wrongWayRound = [...at(true, { 1: 8 }), ...at(false, { 9: 8 })];
    expect(youden(wrongWayRound, isPositive, ANYWHERE)).toMatchObject({
      kind: 'not-apart',
      roc: { area: 0 },
    });
  });

  it('is not suggested where it would do a little better than none by what may be chance', () => {
    const one = (from: number) =>
      Object.fromEntries(Array.from({ length: 8 }, (_, index) => [from + index, 1]));
    const readings = [...at(false, one(1)), ...at(true, one(2))];
    expect(figuresAt(readings, isPositive, 1.5).youden).toBeGreaterThan(0);
    expect(youden(readings, isPositive, ANYWHERE)).toMatchObject({ kind: 'not-apart', present: null });
  });

  it('tells its errors apart: missed of the upper kind, false alarms of the lower', () => {
    const readings = [...at(false, { 1: 8, 6: 2 }), ...at(true, { 4: 3, 9: 9 })];
    const figures = figuresAt(readings, isPositive, 5);
    expect(figures.missed).toMatchObject({ count: 3, of: 12, share: 0.25 });
    expect(figures.falseAlarms).toMatchObject({ count: 2, of: 10, share: 0.2 });
    expect(figures.sensitivity.share + figures.missed.share).toBe(1);
    expect(figures.missed.low).toBeGreaterThan(0);
    expect(figures.missed.high).toBeLessThan(1);
  });
});
