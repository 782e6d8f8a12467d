import fc from 'fast-check';
import { expect, test } from 'vitest';
import {
  civilDay,
  DAY,
  dayFrom,
  dayOf,
  daysTo,
  dayText,
  firstDayOf,
  monthFrom,
  monthOf,
  monthText,
} from '../../trees/review/day.ts';

/** Days that the runtime's calendar has: about 270,000 years either way, of which years of four digits are written. */
const written = fc.integer({ min: -719_528, max: 2_932_896 });

test('a day is the runtime calendar’s, over years of four digits', () => {
  fc.assert(
    fc.property(written, fc.integer({ min: 0, max: DAY - 1 }), (days, rest) => {
      const date = new Date(days * DAY + rest);
      expect(dayOf(date.getTime())).toBe(days);
      expect(dayText(days)).toBe(date.toISOString().slice(0, 10));
      expect(dayFrom(dayText(days))).toBe(days);
    }),
    { numRuns: 2000 },
  );
});

test('every day of four centuries follows the one before', () => {
  for (let days = 0; days < 146_097; days += 1) {
    const { year, month, day } = civilDay(days);
    const before = civilDay(days - 1);
    const follows =
      day === 1
        ? before.month === (month === 1 ? 12 : month - 1) && before.day >= 28
        : before.year === year && before.month === month && before.day === day - 1;
    if (!follows || daysTo({ year, month, day }) !== days) expect.fail(`day ${String(days)}`);
  }
});

test('a month is written as the days in it begin, and starts with its first', () => {
  fc.assert(
    fc.property(written, (days) => {
      const month = monthOf(days);
      expect(monthText(month)).toBe(dayText(days).slice(0, 7));
      expect(monthFrom(monthText(month))).toBe(month);
      expect(dayText(firstDayOf(month))).toBe(`${monthText(month)}-01`);
    }),
  );
});
