import { kaplanMeier } from '../statistics/index.ts';
import { daysBetween, type Chosen, type ChosenBlock } from './choose.ts';
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
      [seen.back[0], seen.lost[0]] = [0, 0];
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

/** What is not fixed is counted as lost on day 0, which is not looked at: to ask at each job whether it is takes longer. */
function see({ back, lost }: Seen, last: number, now: number, { columns, rows }: ChosenBlock): void {
  const { outcome, closedAt, backAt } = columns;
  let late = 0;
  for (let at = 0; at < rows.length; at += 1) {
    const row = rows[at] ?? 0;
    const isFixed = ((outcome[row] ?? 0) - 1) >>> 31;
    const closed = closedAt[row] ?? 0;
    const backOn = backAt[row] ?? 0;
    if (backOn !== 0 && backOn <= now) {
      const days = daysBetween(closed, backOn);
      const into = days > last ? lost : back;
      const day = Math.min(days, last + 1) * isFixed;
      into[day] = (into[day] ?? 0) + 1;
    } else if (now - closed >= last * DAY) late += isFixed;
    else {
      const day = daysBetween(closed, now) * isFixed;
      lost[day] = (lost[day] ?? 0) + 1;
    }
  }
  lost[last + 1] = (lost[last + 1] ?? 0) + late;
}
