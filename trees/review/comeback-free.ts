import { kaplanMeier } from '../statistics/index.ts';
import type { ComebackDays } from './comeback-days.ts';
import type { CurvePoint } from './figures.ts';

/**
 * The share of units that are not back within so many days, as a Kaplan-Meier curve: with a point on day 0 and at the window's
 * end besides those on which one was back.
 */
export function comebackFree({ back, lost }: ComebackDays, window: number): readonly CurvePoint[] {
  return kaplanMeier(back, lost, [0, window]).map(({ events, ...point }) => ({ ...point, back: events }));
}

/** The curve's point on a day. Once all are back it stays at 0, and what is known of it does not grow. */
export function pointAt(wanted: number, curve: readonly CurvePoint[]): CurvePoint | null {
  const last = curve.at(-1);
  return last?.survival === 0 && last.days < wanted
    ? { ...last, days: wanted, atRisk: 0, back: 0 }
    : (curve.find(({ days }) => days === wanted) ?? null);
}
