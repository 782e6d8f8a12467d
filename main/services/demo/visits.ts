import { firstFrom } from '../../../trees/review/index.ts';
import type { Random } from './random.ts';

export const DAY = 24 * 60 * 60_000;
const OPENS = 9;
const HOURS_OPEN = 8;

/** Moments of `count` visits over the weeks up to `until` (milliseconds UTC), in opening hours, Monday to Saturday, in order. */
export function visitTimes(count: number, weeks: number, until: number, random: Random): Float64Array {
  const first = Math.floor(until / DAY) - weeks * 7;
  const days = Array.from({ length: weeks * 7 }, (_, index) => first + index).filter((day) => !isSunday(day));
  return Float64Array.from({ length: count }, () => {
    const day = days[Math.floor(random.next() * days.length)] ?? first;
    return day * DAY + Math.floor((OPENS + HOURS_OPEN * random.next()) * 3_600_000);
  }).sort();
}

/** Visits that are spoken for: each by the unit that comes back on it. */
export interface Bookings<T> {
  /** Books the first free visit at or after a moment, and says when that is; null where none is left. */
  readonly book: (from: number, what: T) => number | null;
  /** What the visit of this number is booked for; it is forgotten then. */
  readonly take: (visit: number) => T | undefined;
}

/** Bookings of visits at these ascending moments. */
export function bookVisits<T>(times: Float64Array): Bookings<T> {
  const booked = new Map<number, T>();
  return {
    book(from, what) {
      let visit = firstFrom(times, from);
      while (booked.has(visit)) visit += 1;
      const at = times[visit];
      if (at === undefined) return null;
      booked.set(visit, what);
      return at;
    },
    take(visit) {
      const what = booked.get(visit);
      booked.delete(visit);
      return what;
    },
  };
}

/** Day 0, 1 January 1970, was a Thursday. */
function isSunday(day: number): boolean {
  return (day + 4) % 7 === 0;
}
