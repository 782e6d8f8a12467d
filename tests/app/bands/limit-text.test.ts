import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { limitText, placeWords, readLimit } from '../../../app/editor/bands/limit-text.ts';

describe('a limit in writing', () => {
  it.each([
    ['3V3', 'V', 3.3],
    ['4k7', 'ohm', 4700],
    ['0.47', 'V', 0.47],
    ['−120 m', 'V', -0.12],
    ['0.96', null, 0.96],
    ['0,96', null, 0.96],
    ['96 %', null, 0.96],
    ['', 'V', undefined],
  ] as const)('%s in %s is %s', (text, unit, value) => {
    expect(readLimit(text, unit)).toEqual({ ok: true, value });
  });

  it.each([
    ['OL', 'ohm', /beyond every limit/],
    ['4k7', 'V', undefined],
    ['3 A', 'V', /volts/],
    ['abc', null, /0\.96/],
    ['.', null, /not a ratio/],
  ] as const)('%s in %s is refused in words, where it is not a limit', (text, unit, says) => {
    const read = readLimit(text, unit);
    if (says === undefined) expect(read.ok).toBe(true);
    else expect(read).toMatchObject({ ok: false, wrong: expect.stringMatching(says) });
  });

  it('is written so that it is read back exactly, whatever digits it has', () => {
    const value = fc
      .double({ min: -1e9, max: 1e9, noNaN: true })
      .filter((one) => one === 0 || Math.abs(one) > 1e-9);
    fc.assert(
      fc.property(
        value,
        fc.constantFrom('V' as const, 'ohm' as const, 'degC' as const, null),
        (limit, unit) => {
          // A limit of minus zero is zero.
          expect(readLimit(limitText(limit + 0, unit), unit)).toEqual({ ok: true, value: limit + 0 });
        },
      ),
    );
  });

  it('is short where it can be, and empty for an open end', () => {
    expect(limitText(1e6, 'ohm')).toBe('1 MΩ');
    expect(limitText(3.1234567891, 'V')).toBe('3.1234567891 V');
    expect(limitText(undefined, 'V')).toBe('');
    expect(placeWords(0.933527, null)).toBe('0.9335');
  });
});
