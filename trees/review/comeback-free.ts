import { kaplanMeier } from '../statistics/index.ts';
import { daysBetween, daysToBack, FIXED, type Chosen } from './choose.ts';
import type { CurvePoint, Review } from './figures.ts';

/**
 * The share of units, closed as fixed, that are not back within so many days, as a Kaplan-Meier curve: a unit that is not back
 * is lost from sight at `now`. The day begun counts, so that "within 90 days" is less than 90 times 24 hours, the same as
 * the window of first-time fix. Up to twice the window at most; any return of the unit counts.
 */
export function comebackFree(chosen: Chosen): Pick<Review, 'comebackFree' | 'atWindow'> {
  const { window } = chosen;
  const { back, lost } = daysSeen(chosen, 2 * window);
  const curve = kaplanMeier(back, lost, [0, window]).map(
    ({ days, atRisk, events, survival, error, low, high }): CurvePoint => ({
      days,
      atRisk,
      back: events,
      survival,
      error,
      low,
      high,
    }),
  );
  return { comebackFree: curve, atWindow: curve.find(({ days }) => days === window) ?? null };
}

/** By day, units that were back on it and those lost from sight; what is past the last day is lost right after it. */
function daysSeen(
  { blocks, now }: Chosen,
  last: number,
): { readonly back: Uint32Array; readonly lost: Uint32Array } {
  const back = new Uint32Array(last + 2);
  const lost = new Uint32Array(last + 2);
  for (const { columns, rows } of blocks) {
    const { outcome, closedAt, backAt } = columns;
    for (let at = 0; at < rows.length; at += 1) {
      const row = rows[at] ?? 0;
      if (outcome[row] !== FIXED) continue;
      const closed = closedAt[row] ?? 0;
      const days = daysToBack(closed, backAt[row] ?? 0, now);
      if (days > 0 && days <= last) back[days] = (back[days] ?? 0) + 1;
      else {
        const seen = Math.min(last + 1, days > 0 ? days : daysBetween(closed, now));
        lost[seen] = (lost[seen] ?? 0) + 1;
      }
    }
  }
  return { back, lost };
}
