import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readNumber, writeNumber } from '../../app/editor/form/entry/number-entry.ts';
import { BRANCH_WEIGHT, MINUTES, RELIABILITY, SHARE } from '../../app/editor/form/entry/number-rules.ts';
import { readText } from '../../app/editor/form/entry/text-entry.ts';

describe('a number typed into a form', () => {
  it.each([
    ['0.8', 0.8],
    ['0,8', 0.8],
    [' 12 ', 12],
    ['12 min', 12],
    ['12min', 12],
    ['.5', 0.5],
    ['3.', 3],
    ['0,125', 0.125],
    ['1.200', 1.2],
    ['1e2', 100],
    ['+4', 4],
    ['-0', 0],
  ])('“%s” is %d minutes', (typed, value) => {
    expect(readNumber(typed, MINUTES)).toEqual({ ok: true, value });
  });

  it.each(['x', '1 2', '1.2.3', '1,2,3', 'min', '12 s', '0x10', 'Infinity', 'NaN', '4k7', '١٢', '.', 'e3'])(
    '“%s” is none, and why is said',
    (typed) => {
      expect(readNumber(typed, MINUTES)).toEqual({ ok: false, wrong: expect.stringMatching(/^Type a /) });
    },
  );

  it('is not taken where a comma may part thousands or a fraction', () => {
    expect(readNumber('1,200', MINUTES)).toEqual({
      ok: false,
      wrong: '“1,200” may be 1.200 or 1200: type one of them.',
    });
  });

  it.each([
    ['-1', MINUTES, 'This must be at least 0\u00a0min.'],
    ['\u22121', MINUTES, 'This must be at least 0\u00a0min.'],
    ['100001', MINUTES, 'This must be at most 100000\u00a0min.'],
    ['0', RELIABILITY, 'This must be more than 0\u00a0%.'],
    ['101', RELIABILITY, 'This must be at most 100\u00a0%.'],
    ['100', { below: 1, percent: true }, 'This must be less than 100\u00a0%.'],
    ['1e400', MINUTES, 'This must be at most 100000\u00a0min.'],
  ])('“%s” is beyond its limit, which is said in the unit it is typed in', (typed, rule, wrong) => {
    expect(readNumber(typed, rule)).toEqual({ ok: false, wrong });
  });

  it('may be left empty only where a default holds then', () => {
    expect(readNumber(' ', BRANCH_WEIGHT)).toEqual({ ok: true, value: undefined });
    expect(readNumber(' ', MINUTES)).toEqual({ ok: false, wrong: 'Type a number.' });
  });

  it.each([
    ['98', 0.98],
    ['99.7 %', 0.997],
    ['0,1', 0.001],
    ['7', 0.07],
    ['28', 0.28],
    ['57', 0.57],
    ['100', 1],
  ])('“%s” per cent is the share %d, to the digit', (typed, value) => {
    expect(readNumber(typed, SHARE)).toEqual({ ok: true, value });
  });

  it.each([
    [0.98, '98'],
    [0.997, '99.7'],
    [0.07, '7'],
    [1, '100'],
    [0, '0'],
    [1e-9, '1e-7'],
  ])('the share %d is shown as %s per cent', (value, shown) => {
    expect(writeNumber(value, SHARE)).toBe(shown);
  });

  it('as it is shown is read back as the same number exactly, a share as well as any other', () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 1, noNaN: true }), (value) => {
        expect(readNumber(writeNumber(value, MINUTES), MINUTES)).toEqual({ ok: true, value: value + 0 });
      }),
    );
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 1_000_000 }), (millionths) => {
        const value = millionths / 1_000_000;
        expect(readNumber(writeNumber(value, SHARE), SHARE)).toEqual({ ok: true, value });
      }),
    );
  });
});

describe('a text typed into a form', () => {
  it('of one line has its line breaks made spaces, and one of many keeps them', () => {
    expect(readText('3.3 V\n rail', { line: true, optional: false })).toEqual({
      ok: true,
      value: '3.3 V rail',
    });
    expect(readText('a\nb', { line: false, optional: false })).toEqual({ ok: true, value: 'a\nb' });
  });

  it('may be blank, and is left out where it may be', () => {
    expect(readText('', { line: true, optional: false })).toEqual({ ok: true, value: '' });
    expect(readText('', { line: false, optional: true })).toEqual({ ok: true, value: undefined });
  });

  it('that is too long for the document is not cut but refused, with by how much', () => {
    expect(readText('a'.repeat(8000), { line: false, optional: false }).ok).toBe(true);
    expect(readText('a'.repeat(8003), { line: false, optional: false })).toEqual({
      ok: false,
      wrong: 'This is 3 letters too long: 8000 are taken at most.',
    });
  });
});
