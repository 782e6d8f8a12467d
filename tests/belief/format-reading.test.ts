import fc from 'fast-check';
import { expect, test } from 'vitest';
import { formatReading, parseReading } from '../../trees/belief/index.ts';
import { READING_UNITS, type ReadingUnit } from '../../trees/document/index.ts';

test.each<[number | 'OL', ReadingUnit, string]>([
  [4700, 'ohm', '4.7 kΩ'],
  [0.47, 'ohm', '470 mΩ'],
  [3.3, 'V', '3.3 V'],
  [-0.12, 'V', '\u2212120 mV'],
  [0, 'A', '0 A'],
  [-0, 'A', '0 A'],
  [0.00025, 'A', '250 \u00b5A'],
  [32768, 'Hz', '32.768 kHz'],
  [0.1 + 0.2, 's', '300 ms'],
  [999.9999999, 'ohm', '1 kΩ'],
  [0.9999999999, 'V', '1 V'],
  [23.5, 'degC', '23.5 °C'],
  [1250, 'degC', '1250 °C'],
  [2e15, 'Hz', '2000 THz'],
  ['OL', 'ohm', 'OL'],
])('%s in %s is shown as %s', (value, unit, shown) => {
  expect(formatReading(value, unit)).toBe(shown);
});

test('what is shown reads back as the value, to the six digits shown', () => {
  const magnitude = fc.double({ min: -14, max: 14, noNaN: true });
  fc.assert(
    fc.property(magnitude, fc.boolean(), fc.constantFrom(...READING_UNITS), (power, minus, unit) => {
      const value = (minus ? -1 : 1) * 10 ** power;
      const parsed = parseReading(formatReading(value, unit), unit);
      if (!parsed.ok || parsed.value === 'OL') throw new Error(formatReading(value, unit));
      expect(Math.abs(parsed.value - value)).toBeLessThanOrEqual(5.0001e-6 * Math.abs(value));
    }),
    { numRuns: 2000 },
  );
});

test('what is shown has one to three digits before the point, but past the ends of the prefixes', () => {
  fc.assert(
    fc.property(fc.double({ min: -11.9, max: 14.9, noNaN: true }), (power) => {
      expect(formatReading(10 ** power, 'V')).toMatch(/^[1-9]\d{0,2}(?:\.\d+)? [pn\u00b5mkMGT]?V$/u);
    }),
  );
});
