import { describe, expect, it } from 'vitest';
import { readRate } from '../../app/shell/shop/rate-entry.ts';

describe('an hourly rate as typed', () => {
  it.each([
    ['45', 45],
    [' 45.50 ', 45.5],
    ['45,5', 45.5],
    ['0.01', 0.01],
    ['1000000', 1_000_000],
  ])('“%s” is read as %d', (typed, rate) => {
    expect(readRate(typed)).toEqual({ ok: true, rate });
  });

  it.each(['', '   '])('“%s” means that parts’ prices do not count', (typed) => {
    expect(readRate(typed)).toEqual({ ok: true, rate: null });
  });

  it.each(['forty', '45 €', '-45', '1e3', '0x10', '4.5.6', 'Infinity', 'NaN', '٤٥', '.', '1 200'])(
    '“%s” is no number',
    (typed) => {
      expect(readRate(typed)).toEqual({ ok: false, wrong: expect.stringContaining('plain number') });
    },
  );

  it.each([
    ['0', 'at least 0.01'],
    ['0.009', 'at least 0.01'],
    ['1000001', 'at most 1000000'],
    ['99999999999999999999', 'at most 1000000'],
    ['1,200', 'without a comma between the thousands'],
    ['1,200.50', 'without a comma between the thousands'],
  ])('“%s” is refused, as it must be %s', (typed, said) => {
    expect(readRate(typed)).toEqual({ ok: false, wrong: expect.stringContaining(said) });
  });
});
