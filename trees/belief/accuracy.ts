import type { Instrument } from '../document/index.ts';

/** An instrument's accuracy, ±(percent % of the reading + constant), the constant in the reading's SI unit. */
export interface Accuracy {
  readonly percent: number;
  readonly constant: number;
}

const ACCURACIES: Readonly<Record<Instrument, Accuracy>> = {
  'dc-volts': { percent: 0.5, constant: 0.005 },
  ohms: { percent: 1, constant: 0.3 },
  continuity: { percent: 1, constant: 0.3 },
  diode: { percent: 1, constant: 0.005 },
  'dc-amps': { percent: 1.5, constant: 0.003 },
  scope: { percent: 3, constant: 0.02 },
  eye: { percent: 0, constant: 0 },
  ear: { percent: 0, constant: 0 },
  hand: { percent: 0, constant: 0 },
};

/**
 * The accuracy taken until the shop enters its own instrument's (DESIGN section 4): that of an ordinary handheld meter,
 * common practice, no source. What is read by eye, ear or hand has none.
 */
export function defaultAccuracy(instrument: Instrument): Accuracy {
  return ACCURACIES[instrument];
}
