import { quote, warningAt, type Problem } from './problem.ts';
import type { Instrument, ReadingUnit, Tree } from './tree.ts';

/** What an instrument reads. A scope reads several quantities; eye, ear and hand are no meters, though a thermometer is held by hand. */
const READS: Partial<Readonly<Record<Instrument, ReadingUnit>>> = {
  'dc-volts': 'V',
  ohms: 'ohm',
  continuity: 'ohm',
  diode: 'V',
  'dc-amps': 'A',
};

/** Tests whose reading is in the unit of a quantity that their instrument does not measure. */
export function warnOfUnits(tree: Tree): readonly Problem[] {
  return Object.entries(tree.tests).flatMap(([id, { instrument, reading }]) => {
    const unit = READS[instrument];
    if (reading === undefined || unit === undefined || reading.unit === unit) return [];
    const message = `The reading is in ${reading.unit}, and ${quote(instrument)} measures ${unit}.`;
    const help = `Write ${quote(unit)}, or choose the instrument that measures ${reading.unit}.`;
    const at = ['tests', id, 'reading', 'unit'];
    return [warningAt(at, 'unit-unlike-instrument', message, help, [at, ['tests', id, 'instrument']])];
  });
}
