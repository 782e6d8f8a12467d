import { kaplanMeier } from '../statistics/index.ts';
import { daysBetween, daysToBack, FIXED, type Chosen, type ChosenBlock } from './choose.ts';
import { DAY } from './day.ts';
import type { CurvePoint, Review } from './figures.ts';
import type { Tally } from './tally.ts';

/** By day, units that were back on it and those lost from sight. What is past the curve's end is lost right after it. */
interface Seen {
  readonly back: Uint32Array;
  readonly lost: Uint32Array;
}

/**
 * The share of units, closed as fixed, that are not back within so many days, as a Kaplan-Meier curve: a unit that is not back
 * is lost from sight at `now`. The day begun counts, so that "within 90 days" is less than 90 times 24 hours, the same as
 * the window of first-time fix. Up to twice the window at most; any return of the unit counts.
 */
export function openComebackFree(chosen: Chosen): Tally<Pick<Review, 'comebackFree' | 'atWindow'>> {
  const { window, now } = chosen;
  const seen = { back: new Uint32Array(2 * window + 2), lost: new Uint32Array(2 * window + 2) };
  return {
    add: (block) => see(seen, 2 * window, now, block),
    result() {
      const curve = kaplanMeier(seen.back, seen.lost, [0, window]).map(
        ({ events, ...point }): CurvePoint => ({ ...point, back: events }),
      );
      return { comebackFree: curve, atWindow: pointAt(window, curve) };
    },
  };
}

/** The curve's point on a day. Once all are back it stays at 0, and what is known of it does not grow. */
function pointAt(wanted: number, curve: readonly CurvePoint[]): CurvePoint | null {
  const last = curve.at(-1);
  return last?.survival === 0 && last.days < wanted
    ? { ...last, days: wanted, atRisk: 0, back: 0 }
    : (curve.find(({ days }) => days === wanted) ?? null);
}

function see({ back, lost }: Seen, last: number, now: number, { columns, rows }: ChosenBlock): void {
  const { outcome, closedAt, backAt } = columns;
  let late = 0;
  for (let at = 0; at < rows.length; at += 1) {
    const row = rows[at] ?? 0;
    if (outcome[row] !== FIXED) continue;
    const closed = closedAt[row] ?? 0;
    const days = daysToBack(closed, backAt[row] ?? 0, now);
    if (days > last || (days === 0 && now - closed >= last * DAY)) late += 1;
    else if (days > 0) back[days] = (back[days] ?? 0) + 1;
    else {
      const seen = daysBetween(closed, now);
      lost[seen] = (lost[seen] ?? 0) + 1;
    }
  }
  lost[last + 1] = (lost[last + 1] ?? 0) + late;
}
