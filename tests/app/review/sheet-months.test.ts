import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { isMonth, monthOfSheet, monthsDown, spanOf, yearUpTo } from '../../../app/review/sheet/months.ts';

const ALL = { from: null, to: null };

describe('the month of a sheet', () => {
  it('is the last whole one where the page is not narrowed to a period', () => {
    expect(monthOfSheet(ALL, '2026-11-26')).toBe('2026-10');
    expect(monthOfSheet(ALL, '2026-01-01')).toBe('2025-12');
    expect(monthOfSheet(ALL, '2024-02-28')).toBe('2024-01');
  });

  it('is that which the page is narrowed to, over or not', () => {
    expect(monthOfSheet({ from: '2026-11-01', to: '2026-11-30' }, '2026-11-26')).toBe('2026-11');
    expect(monthOfSheet({ from: '2024-02-01', to: '2024-02-29' }, '2026-11-26')).toBe('2024-02');
  });

  it('is the last whole one of a longer period', () => {
    expect(monthOfSheet({ from: '2026-01-01', to: '2026-03-31' }, '2026-11-26')).toBe('2026-03');
    expect(monthOfSheet({ from: null, to: '2026-03-30' }, '2026-11-26')).toBe('2026-02');
    expect(monthOfSheet({ from: '2026-01-01', to: '2026-12-31' }, '2026-11-26')).toBe('2026-10');
  });

  it('has all its days, and the year before it begins with the same month', () => {
    const month = fc
      .date({ min: new Date('2000-01-01'), max: new Date('2099-12-31'), noInvalidDate: true })
      .map((date) => date.toISOString().slice(0, 7));
    fc.assert(
      fc.property(month, (one) => {
        const { from, to } = spanOf(one);
        expect([from, to.slice(0, 7)]).toEqual([`${one}-01`, one]);
        expect(new Date(Date.parse(to) + 86_400_000).getUTCDate()).toBe(1);
        const year = yearUpTo(one);
        expect(year).toEqual({ from: `${String(Number(one.slice(0, 4)) - 1)}${one.slice(4)}-01`, to });
        const months = monthsDown(one, year.from.slice(0, 7));
        expect(months).toHaveLength(13);
        expect(months.every(isMonth)).toBe(true);
        expect(months).toEqual(months.toSorted().reverse());
      }),
    );
  });

  it('is none where an address names something else', () => {
    for (const text of ['2026-13', '2026-00', '2026', '2026-1', '2026-01-01', ''])
      expect(isMonth(text)).toBe(false);
  });
});
