import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  closeGap,
  endOverlap,
  layoutBands,
  setEnd,
  setLimit,
  setReference,
  splitBand,
  withoutResult,
  type Gap,
  type Overlap,
  type Results,
} from '../../trees/limits/index.ts';

const RAIL: Results = {
  good: { title: 'In limits', band: { from: 3.135, to: 3.465 } },
  low: { title: 'Low', band: { from: 0.4, to: 3.135 } },
  dead: { title: 'Nothing', band: { to: 0.4 } },
  high: { title: 'High', band: { from: 3.465 } },
};

/** As it would be written in a file: the order of keys counts. */
const written = (results: Results): string => JSON.stringify(results);

function faultOf<K extends 'gap' | 'overlap'>(results: Results, kind: K) {
  const fault = layoutBands(results).faults.find((one) => one.kind === kind);
  if (fault === undefined) throw new Error(`no ${kind}`);
  return fault as K extends 'gap' ? Gap : Overlap;
}

describe('a limit', () => {
  it('moves for both bands that meet there, and nothing else changes', () => {
    const limit = layoutBands(RAIL).limits[1];
    if (limit === undefined) throw new Error('no limit');
    const moved = setLimit(RAIL, limit, 3.2);
    expect(written(moved)).toBe(written(RAIL).replaceAll('3.135', '3.2'));
    expect(moved['dead']).toBe(RAIL['dead']);
  });

  it('can be set and opened at one end of one band, and stands before the upper one in the file', () => {
    const opened = setEnd(RAIL, 'low', 'from', undefined);
    expect(written({ low: opened['low'] ?? { title: '' } })).toBe(
      '{"low":{"title":"Low","band":{"to":3.135}}}',
    );
    expect(written(setEnd(opened, 'low', 'from', 0.4))).toBe(written(RAIL));
  });

  it('gives a result without a band one, a ratio where the others are', () => {
    const results = setReference(RAIL, 'rail-in');
    const added = setEnd({ ...results, new: { title: 'New' } }, 'new', 'to', 1);
    expect(added['new']).toEqual({ title: 'New', band: { of: 'rail-in', to: 1 } });
  });
});

describe('a band', () => {
  it('is split in two, the new result taking one part and coming next', () => {
    const above = splitBand(RAIL, { result: 'low', at: 2, id: 'sagging', title: 'Sagging', part: 'above' });
    expect(Object.keys(above)).toEqual(['good', 'low', 'sagging', 'dead', 'high']);
    expect(above['low']?.band).toEqual({ from: 0.4, to: 2 });
    expect(above['sagging']).toEqual({ title: 'Sagging', band: { from: 2, to: 3.135 } });
    expect(layoutBands(above).faults).toEqual([]);
    const below = splitBand(RAIL, { result: 'dead', at: 0.1, id: 'nil', title: 'Nil', part: 'below' });
    expect(below['nil']?.band).toEqual({ to: 0.1 });
    expect(below['dead']?.band).toEqual({ from: 0.1, to: 0.4 });
  });

  it('split, covers with the new one what it did before, and the two meet at the place', () => {
    fc.assert(
      fc.property(
        fc.constantFrom('good', 'low', 'dead', 'high'),
        fc.constantFrom('below' as const, 'above' as const),
        (result, part) => {
          const { from, to } = RAIL[result]?.band ?? {};
          const at = ((from ?? -5) + (to ?? 9)) / 2;
          const split = splitBand(RAIL, { result, at, id: 'new', title: 'New', part });
          const [lower, upper] = part === 'below' ? ['new', result] : [result, 'new'];
          expect(split[lower]?.band).toEqual({ ...(from !== undefined && { from }), to: at });
          expect(split[upper]?.band).toEqual({ from: at, ...(to !== undefined && { to }) });
          const others = withoutResult(withoutResult(split, 'new'), result);
          expect(written(others)).toBe(written(withoutResult(RAIL, result)));
        },
      ),
    );
  });

  it('left out leaves a gap', () => {
    expect(layoutBands(withoutResult(RAIL, 'low')).faults).toHaveLength(1);
  });

  it('keeps its figures when it becomes a ratio, and loses the reference when it becomes plain again', () => {
    const ratio = setReference(RAIL, 'rail-in');
    expect(Object.values(ratio).every(({ band }) => band?.of === 'rail-in')).toBe(true);
    expect(written(setReference(ratio, undefined))).toBe(written(RAIL));
  });
});

describe('a gap and an overlap', () => {
  it('close in favour of the band below or above', () => {
    const gapped = setEnd(RAIL, 'low', 'to', 3);
    const gap = faultOf(gapped, 'gap');
    expect(written(closeGap(gapped, gap, 'below'))).toBe(written(RAIL));
    expect(closeGap(gapped, gap, 'above')['good']?.band).toEqual({ from: 3, to: 3.465 });
    expect(layoutBands(closeGap(gapped, gap, 'above')).faults).toEqual([]);
  });

  it('close at an end of the line by opening the outermost band, which has no neighbour there', () => {
    const closed = setEnd(RAIL, 'high', 'to', 5);
    const gap = faultOf(closed, 'gap');
    expect(written(closeGap(closed, gap, 'below'))).toBe(written(RAIL));
    expect(closeGap(closed, gap, 'above')).toBe(closed);
  });

  it('are left to either band', () => {
    const lapped = setEnd(RAIL, 'low', 'to', 3.2);
    const overlap = faultOf(lapped, 'overlap');
    expect(endOverlap(lapped, overlap, 'below')['good']?.band).toEqual({ from: 3.2, to: 3.465 });
    expect(written(endOverlap(lapped, overlap, 'above'))).toBe(written(RAIL));
  });
});
