import type { ReadingUnit } from '../document/index.ts';

/** SI prefixes that a reading may carry, by power of ten. Case tells milli from mega; `K` is kilo, as IEC 60062 writes it. */
export const PREFIXES: ReadonlyMap<string, number> = new Map([
  ['p', -12],
  ['n', -9],
  ['u', -6],
  ['\u00b5', -6],
  ['\u03bc', -6],
  ['m', -3],
  ['k', 3],
  ['K', 3],
  ['M', 6],
  ['G', 9],
  ['T', 12],
]);

/** How a unit is shown, called, and written: the names are matched in any case, the symbols as they stand. */
export interface UnitWriting {
  readonly symbol: string;
  readonly title: string;
  readonly symbols: readonly string[];
  readonly names: readonly string[];
  /** Letter that may stand for the decimal mark (`3V3`, `1A5`; `4R7` as in IEC 60062). */
  readonly mark?: string;
  readonly prefixed: boolean;
}

export const UNIT_WRITINGS: Readonly<Record<ReadingUnit, UnitWriting>> = {
  V: {
    symbol: 'V',
    title: 'volts',
    symbols: ['V', 'v'],
    names: ['volt', 'volts', 'vdc', 'v dc'],
    mark: 'V',
    prefixed: true,
  },
  A: {
    symbol: 'A',
    title: 'amperes',
    symbols: ['A', 'a'],
    names: ['amp', 'amps', 'ampere', 'amperes', 'adc', 'a dc'],
    mark: 'A',
    prefixed: true,
  },
  ohm: {
    symbol: '\u03a9',
    title: 'ohms',
    symbols: ['\u03a9', '\u2126', 'R'],
    names: ['ohm', 'ohms'],
    mark: 'R',
    prefixed: true,
  },
  Hz: { symbol: 'Hz', title: 'hertz', symbols: ['Hz'], names: ['hz', 'hertz'], prefixed: true },
  s: {
    symbol: 's',
    title: 'seconds',
    symbols: ['s'],
    names: ['sec', 'secs', 'second', 'seconds'],
    prefixed: true,
  },
  degC: {
    symbol: '\u00b0C',
    title: 'degrees Celsius',
    symbols: ['\u00b0C', '\u00baC', '\u2103', 'C', '\u00b0'],
    names: ['degc', 'deg c', '\u00b0c', 'c', 'celsius'],
    prefixed: false,
  },
};
