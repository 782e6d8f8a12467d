import type { Instrument } from '../../trees/document/index.ts';

/** The instruments in words, as a technician says them. */
export const INSTRUMENT_WORDS: Readonly<Record<Instrument, string>> = {
  'dc-volts': 'DC volts',
  ohms: 'Ohms',
  continuity: 'Continuity',
  diode: 'Diode test',
  'dc-amps': 'DC amps',
  scope: 'Scope',
  eye: 'By eye',
  ear: 'By ear',
  hand: 'By hand',
};

/** Those that measure, and so have an accuracy. */
export const MEASURING = ['dc-volts', 'ohms', 'continuity', 'diode', 'dc-amps', 'scope'] as const;

/** The SI unit of an instrument's accuracy constant; a scope's is the unit of what it shows. */
export const INSTRUMENT_UNIT: Readonly<Record<Instrument, string>> = {
  'dc-volts': 'V',
  ohms: 'Ω',
  continuity: 'Ω',
  diode: 'V',
  'dc-amps': 'A',
  scope: 'of the unit shown',
  eye: '',
  ear: '',
  hand: '',
};
