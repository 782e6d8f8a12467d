import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { parseReading } from '../../trees/belief/index.ts';
import { READING_UNITS, type ReadingUnit } from '../../trees/document/index.ts';

function valueOf(text: string, unit: ReadingUnit): number | 'OL' | string {
  const parsed = parseReading(text, unit);
  return parsed.ok ? parsed.value : parsed.problem.code;
}

describe('numbers as a meter shows them', () => {
  test.each<[string, ReadingUnit, number]>([
    ['0.47', 'V', 0.47],
    ['470m', 'V', 0.47],
    ['4.7k', 'ohm', 4700],
    ['4.7 kΩ', 'ohm', 4700],
    ['4.7 k\u2126', 'ohm', 4700],
    ['3.30V', 'V', 3.3],
    ['3.3 volts', 'V', 3.3],
    ['12.0 V DC', 'V', 12],
    ['15ms', 's', 0.015],
    ['250 \u00b5A', 'A', 0.00025],
    ['250 \u03bcA', 'A', 0.00025],
    ['250uA', 'A', 0.00025],
    ['32.768 kHz', 'Hz', 32768],
    ['4 MHz', 'Hz', 4e6],
    ['23.5 °C', 'degC', 23.5],
    ['23.5', 'degC', 23.5],
    ['-5', 'degC', -5],
    ['+1.5', 'V', 1.5],
    ['\u22120.62', 'V', -0.62],
    ['- 12.1', 'V', -12.1],
    ['  5.02  ', 'V', 5.02],
    ['.5', 'V', 0.5],
    ['5.', 'V', 5],
    ['1e3', 'ohm', 1000],
    ['1.5E-3', 'A', 0.0015],
    ['2K', 'ohm', 2000],
    ['1 G', 'ohm', 1e9],
    ['100p', 's', 1e-10],
    ['33n', 's', 3.3e-8],
  ])('%s in %s is %d', (text, unit, value) => {
    expect(valueOf(text, unit)).toBe(value);
  });

  test('minus nothing is nothing', () => {
    expect(Object.is(valueOf('-0', 'V'), 0)).toBe(true);
  });

  test('prefixes are taken as decimals, so that a reading lies on its limit when typed either way', () => {
    for (const [text, value] of [
      ['3135m', 3.135],
      ['4.7k', 4700],
      ['1.1u', 0.0000011],
    ] as const) {
      expect(valueOf(text, 'V')).toBe(value);
    }
  });

  test('what was typed is kept without its outer spaces', () => {
    expect(parseReading(' 3V3 ', 'V')).toEqual({ ok: true, value: 3.3, typed: '3V3' });
  });
});

describe('a letter in the decimal mark’s place', () => {
  test.each<[string, ReadingUnit, number]>([
    ['3V3', 'V', 3.3],
    ['3v3', 'V', 3.3],
    ['1A5', 'A', 1.5],
    ['4k7', 'ohm', 4700],
    ['4k7 Ω', 'ohm', 4700],
    ['4r7', 'ohm', 4.7],
    ['2G2', 'ohm', 2.2e9],
    ['1T0', 'ohm', 1e12],
    ['2m5', 'A', 0.0025],
    ['-3V3', 'V', -3.3],
  ])('%s in %s is %d', (text, unit, value) => {
    expect(valueOf(text, unit)).toBe(value);
  });
});

describe('a comma as decimal mark', () => {
  test.each([
    ['0,47', 0.47],
    [',47', 0.47],
    ['0,470', 0.47],
    ['4,7', 4.7],
    ['12,34', 12.34],
    ['1234,567', 1234.567],
    ['4,7k', 4700],
  ])('%s is %d', (text, value) => {
    expect(valueOf(text, 'ohm')).toBe(value);
  });

  test.each(['1,000', '12,500', '999,999', '-1,000', '4,700 k'])('%s could be read two ways', (text) => {
    const parsed = parseReading(text, 'ohm');
    expect(parsed).toMatchObject({ ok: false, problem: { code: 'ambiguous-comma' } });
  });

  test('the two readings are offered', () => {
    expect(parseReading('1,000', 'ohm')).toMatchObject({
      problem: { message: '"1,000" may be 1.000 or 1000.', help: 'Type 1.000 or 1000.' },
    });
  });
});

describe('over the meter’s range', () => {
  test.each(['OL', 'ol', 'O.L', '0L', '0.L', '.OL', 'O.L.', 'OVLD', 'overload', '+OL', 'OL V', ' OL '])(
    '%s is OL',
    (text) => {
      expect(valueOf(text, 'V')).toBe('OL');
    },
  );

  test('it may carry the meter’s unit with a prefix, but not another unit', () => {
    expect(valueOf('OL MΩ', 'ohm')).toBe('OL');
    expect(valueOf('OL V', 'ohm')).toBe('wrong-unit');
  });

  test.each(['-OL', '\u2212OL', '- O.L'])('%s is refused: swap the probes', (text) => {
    const parsed = parseReading(text, 'V');
    expect(parsed).toMatchObject({ ok: false, problem: { code: 'negative-overload' } });
    if (!parsed.ok) expect(parsed.problem.help).toMatch(/^Swap the probes/u);
  });
});

describe('refused', () => {
  test.each<[string, ReadingUnit, string]>([
    ['', 'V', 'empty'],
    ['   ', 'V', 'empty'],
    ['4.7 V', 'ohm', 'wrong-unit'],
    ['4R7', 'V', 'wrong-unit'],
    ['3V3', 'A', 'wrong-unit'],
    ['15 ms', 'Hz', 'wrong-unit'],
    ['20 mA', 'V', 'wrong-unit'],
    ['2 k', 'degC', 'no-prefix'],
    ['2 m°C', 'degC', 'no-prefix'],
    ['4 mhz', 'Hz', 'unclear-prefix'],
    ['4.7 furlongs', 'V', 'unknown-unit'],
    ['3V3 mV', 'V', 'unknown-unit'],
    ['seven', 'V', 'not-a-number'],
    ['-', 'V', 'not-a-number'],
    ['NaN', 'V', 'not-a-number'],
    ['Infinity', 'V', 'not-a-number'],
    ['-Infinity', 'V', 'not-a-number'],
    ['1.2.3', 'V', 'not-a-number'],
    ['1,000.5', 'V', 'not-a-number'],
    ['4 700', 'V', 'not-a-number'],
    ['4\n7', 'V', 'not-a-number'],
    ['0x10', 'V', 'unknown-unit'],
    ['0b1', 'V', 'unknown-unit'],
    ['1e400', 'V', 'out-of-range'],
    ['1e-400', 'V', 'out-of-range'],
    ['9999T', 'V', 'out-of-range'],
    ['0.000000001p', 's', 'out-of-range'],
    ['1'.repeat(41), 'V', 'too-long'],
    ['1'.repeat(100_000), 'V', 'too-long'],
  ])('%s in %s: %s', (text, unit, code) => {
    expect(valueOf(text, unit)).toBe(code);
  });

  test('any text at all is either a finite number, OL, or a problem with words to it; nothing is thrown', () => {
    const near = fc.string({
      unit: fc.constantFrom(...'0123456789.,eE+-\u2212 kKmMuµRVAΩOLol'),
      maxLength: 12,
    });
    fc.assert(
      fc.property(
        fc.oneof(near, fc.string(), fc.string({ unit: 'binary' })),
        fc.constantFrom(...READING_UNITS),
        (text, unit) => {
          const parsed = parseReading(text, unit);
          if (parsed.ok) expect(parsed.value === 'OL' || Number.isFinite(parsed.value)).toBe(true);
          else expect(parsed.problem.message.length * parsed.problem.help.length).toBeGreaterThan(0);
        },
      ),
      { numRuns: 3000 },
    );
  });

  test('a plain decimal is the number it says, to the last bit', () => {
    fc.assert(
      fc.property(fc.double({ min: 1e-6, max: 1e6, noNaN: true }), (value) => {
        expect(valueOf(String(value), 'V')).toBe(value);
      }),
    );
  });
});
