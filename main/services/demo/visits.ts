import type { Random } from './random.ts';

const DAY = 24 * 60 * 60_000;
const OPENS = 9;
const HOURS_OPEN = 8;

/** Moments of `count` visits over the weeks up to `until` (milliseconds UTC), in opening hours, Monday to Saturday, in order. */
export function visitTimes(count: number, weeks: number, until: number, random: Random): readonly number[] {
  const first = Math.floor(until / DAY) - weeks * 7;
  const days = Array.from({ length: weeks * 7 }, (_, index) => first + index).filter((day) => !isSunday(day));
  return Array.from({ length: count }, () => {
    const day = random.choose(days);
    return day * DAY + Math.floor((OPENS + HOURS_OPEN * random.next()) * 3_600_000);
  }).sort((a, b) => a - b);
}

/** Day 0, 1 January 1970, was a Thursday. */
function isSunday(day: number): boolean {
  return (day + 4) % 7 === 0;
}
