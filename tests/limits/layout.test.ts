import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { layoutBands, type Results } from '../../trees/limits/index.ts';
import { checkTree } from '../../trees/document/index.ts';
import { smallDocument, treeOf } from '../support/trees.ts';

type Bands = Readonly<Record<string, { from?: number; to?: number; of?: string } | null>>;

function resultsOf(bands: Bands): Results {
  return Object.fromEntries(
    Object.entries(bands).map(([id, band]) => [id, band === null ? { title: id } : { title: id, band }]),
  );
}

const SOUND: Bands = {
  good: { from: 3.135, to: 3.465 },
  low: { from: 0.4, to: 3.135 },
  dead: { to: 0.4 },
  high: { from: 3.465 },
};

describe('bands on the line', () => {
  it('keep the order of the results, and share their limits where they meet', () => {
    const layout = layoutBands(resultsOf(SOUND));
    expect(layout.bands.map(({ result }) => result)).toEqual(['good', 'low', 'dead', 'high']);
    expect(layout.limits).toEqual([
      { at: 0.4, ends: ['dead'], starts: ['low'] },
      { at: 3.135, ends: ['low'], starts: ['good'] },
      { at: 3.465, ends: ['good'], starts: ['high'] },
    ]);
    expect(layout.faults).toEqual([]);
  });

  it('show a gap with its two ends and the results beside it', () => {
    const { faults, limits } = layoutBands(resultsOf({ ...SOUND, low: { from: 0.4, to: 3 } }));
    expect(faults).toEqual([{ kind: 'gap', from: 3, to: 3.135, below: 'low', above: 'good' }]);
    expect(limits[1]).toEqual({ at: 3, ends: ['low'], starts: [] });
  });

  it('show an overlap with its two ends and the two results', () => {
    const { faults } = layoutBands(resultsOf({ ...SOUND, low: { from: 0.4, to: 3.2 } }));
    expect(faults).toEqual([{ kind: 'overlap', from: 3.135, to: 3.2, below: 'low', above: 'good' }]);
  });

  it('show each end of the line that no band holds', () => {
    const { faults } = layoutBands(resultsOf({ only: { from: 1, to: 2 } }));
    expect(faults).toEqual([
      { kind: 'gap', from: -Infinity, to: 1, below: null, above: 'only' },
      { kind: 'gap', from: 2, to: Infinity, below: 'only', above: null },
    ]);
  });

  it('take a missing limit as open, which overlaps all beyond it', () => {
    const { faults } = layoutBands(resultsOf({ a: { from: 1 }, b: { from: 2 }, c: { to: 1 } }));
    expect(faults).toEqual([{ kind: 'overlap', from: 2, to: Infinity, below: 'a', above: 'b' }]);
  });

  it('find the gap above a band that lies within another', () => {
    const { faults } = layoutBands(resultsOf({ wide: { to: 10 }, within: { from: 2, to: 3 } }));
    expect(faults).toEqual([
      { kind: 'overlap', from: 2, to: 3, below: 'wide', above: 'within' },
      { kind: 'gap', from: 10, to: Infinity, below: 'wide', above: null },
    ]);
  });

  it('tell a band that holds no reading, a result without a band, and references that differ', () => {
    const layout = layoutBands(
      resultsOf({ single: { from: 2, to: 2 }, none: null, ratio: { from: 0.9, of: 'rail' } }),
    );
    expect(layout.bands[0]).toEqual({ result: 'single', from: 2, to: 2, holds: false });
    expect(layout.without).toEqual(['none']);
    expect(layout.references).toEqual([undefined, 'rail']);
    expect(layoutBands(resultsOf({ none: null })).faults).toEqual([]);
  });

  it('hold a reading once, never or more often just where no fault, a gap or overlaps are shown', () => {
    const end = fc.option(fc.integer({ min: 0, max: 8 }), { nil: undefined });
    const band = fc
      .record({ from: end, to: end })
      .map(({ from, to }) => ({ ...(from !== undefined && { from }), ...(to !== undefined && { to }) }));
    fc.assert(
      fc.property(fc.array(band, { minLength: 1, maxLength: 5 }), (bands) => {
        const { faults } = layoutBands(
          resultsOf(Object.fromEntries(bands.map((one, at) => [`r${at}`, one]))),
        );
        for (let place = -0.5; place < 9; place += 0.5) {
          const held = bands.filter(
            ({ from = -Infinity, to = Infinity }) => from <= place && place < to,
          ).length;
          const here = faults.filter(({ from, to }) => from <= place && place < to);
          const overlaps = here.filter(({ kind }) => kind === 'overlap').length;
          expect(here.some(({ kind }) => kind === 'gap')).toBe(held === 0);
          expect(overlaps).toBe(Math.max(0, (held * (held - 1)) / 2));
        }
      }),
    );
  });

  it('have a fault just where the checker of trees finds a gap or an overlap', () => {
    const end = fc.integer({ min: 0, max: 4 });
    const drawn = fc.tuple(end, end, end, end).filter(([from, to]) => from < to);
    fc.assert(
      fc.property(drawn, ([from, to, low, high]) => {
        const document = smallDocument();
        const results = resultsOf({ good: { from, to }, low: { to: low }, high: { from: high } });
        Object.assign(document.tests['rail-in'] ?? {}, { results });
        const rules = checkTree(treeOf(document)).map(({ rule }) => rule);
        const faulty = rules.some((rule) => rule === 'band-gap' || rule === 'band-overlap');
        expect(layoutBands(results).faults.length > 0).toBe(faulty);
      }),
      { numRuns: 60 },
    );
  });
});
