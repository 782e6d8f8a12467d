import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { bandsOf, readTree } from '../../trees/document/index.ts';

const file = new URL('../../trees/library/kw1-usb-charge.tree.json', import.meta.url);
const { tree } = readTree(readFileSync(file));

/** Limits of one result of one test of the tree, in the test's SI unit. */
function limits(test: string, result: string): { readonly from: number; readonly to: number } {
  const found = tree?.tests[test];
  const band = found === undefined ? undefined : bandsOf(found).find((one) => one.result === result);
  if (band === undefined) throw new Error(`${test} has no band for ${result}`);
  return band;
}

/** The result that a reading gives, by the tree's own bands: from <= reading < to. */
function resultAt(test: string, reading: number): string | undefined {
  const found = tree?.tests[test];
  return found && bandsOf(found).find(({ from, to }) => from <= reading && reading < to)?.result;
}

describe('USB values in the tree of the charging board', () => {
  // USB Type-C Cable and Connector Specification, sink CC termination (Rd): 5.1 kohm, 10 %.
  // Basis: recalled; the nominal value alone was seen second-hand (docs.rs, embassy-stm32 0.2.0, enum CcPull).
  it('takes a CC pull-down for good from 5.1 kohm - 10 % to 5.1 kohm + 10 %, to 0.01 ohm', () => {
    const rd = { nominal: 5100, tolerance: 0.1 };
    for (const test of ['cc-at-plug', 'cc1-resistance', 'cc2-resistance']) {
      const { from, to } = limits(test, 'nominal');
      expect(from).toBeCloseTo(rd.nominal * (1 - rd.tolerance), 2);
      expect(to).toBeCloseTo(rd.nominal * (1 + rd.tolerance), 2);
    }
  });

  // The same table; two sound pull-downs in parallel are half of one (Kirchhoff), two in series are twice.
  // Basis: computed from the recalled value.
  it('tells bridged CC lines from sound ones at either end of the tolerance', () => {
    for (const rd of [4590, 5100, 5609]) {
      expect(resultAt('cc1-resistance', rd / 2)).toBe('low');
      expect(resultAt('cc-bridge', 2 * rd)).toBe('apart');
    }
    expect(resultAt('cc-bridge', 0.5)).toBe('bridged');
  });

  // USB 2.0, 7.2.2 and table 7-7: 4.40 V at a low-power port to 5.25 V.
  // Basis: seen second-hand, quoted with 4.75 V (full power) in the data sheet of a USB port protector
  // (Texas Instruments TPD1S514, JAJSHD1F); the standard itself not seen.
  it('takes VBUS at the board for good from 4.40 V to 5.25 V', () => {
    expect(limits('vbus', 'good')).toMatchObject({ from: 4.4, to: 5.25 });
  });

  // USB 2.0, table 7-7: 4.75 V at a high-power port. Basis: seen second-hand, as above.
  it('asks 4.75 V of a bench supply set to 5 V, as of a high-power port', () => {
    expect(limits('input-rail', 'present').from).toBe(4.75);
  });

  // IEC 60063, series E24. Basis: the series' list seen second-hand in an encyclopaedia; the standard itself not seen.
  it('uses resistors of the E24 series for the CC pull-downs and the charge current', () => {
    const e24 = [
      10, 11, 12, 13, 15, 16, 18, 20, 22, 24, 27, 30, 33, 36, 39, 43, 47, 51, 56, 62, 68, 75, 82, 91,
    ];
    const { from, to } = limits('charge-resistor', 'good');
    for (const ohms of [5100, (from + to) / 2]) expect(e24).toContain(Math.round(ohms / 100));
  });

  // IEC 60063 gives E24 its customary tolerance of 5 %. Basis: recalled.
  it('takes the charge-current resistor for good within 5 % of 2.0 kohm, to 0.01 ohm', () => {
    const { from, to } = limits('charge-resistor', 'good');
    expect(from).toBeCloseTo(2000 * 0.95, 2);
    expect(to).toBeCloseTo(2000 * 1.05, 2);
  });
});

describe('lithium-ion values in the tree of the charging board', () => {
  // 4.2 V class cell: charge to 4.20 V, 0.05 V either way, by its maker's sheet; IEC 62133-2 leaves the limit to that sheet.
  // Basis: recalled.
  it('takes 4.20 V within 0.05 V for a good charge voltage, with a cell and without, to 1 mV', () => {
    for (const [test, result] of [
      ['float-voltage', 'good'],
      ['end-voltage', 'full'],
    ] as const) {
      expect(limits(test, result).from).toBeCloseTo(4.2 - 0.05, 3);
      expect(limits(test, result).to).toBeCloseTo(4.2 + 0.05, 3);
    }
  });

  // The cut-off is the maker's: 3.00 V for the invented cell of this board, printed on its drawing.
  // Basis: common practice, no source (makers give 2.5 V to 3.0 V; IEC 62133-2 refers to the maker).
  it('calls a cell sound only between its cut-off and the highest charge voltage', () => {
    expect(limits('cell-voltage', 'sound')).toMatchObject({ from: 3, to: 4.25 });
    expect(resultAt('cell-voltage', 2.99)).toBe('below');
    expect(resultAt('cell-voltage', 4.25)).toBe('over');
    expect(resultAt('cell-voltage', -3.7)).toBe('reversed');
  });

  // A good fuse: under 1 ohm after the leads' own resistance is taken off. Common practice, no source.
  it('calls the input fuse whole only under 1 ohm', () => {
    expect(limits('fuse', 'good').to).toBe(1);
  });
});
