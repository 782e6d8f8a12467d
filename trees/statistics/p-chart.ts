import { controlPoint, type ControlPoint, type Period } from './control-point.ts';

/** A control chart for proportions. */
export interface PChart {
  /** The centre line: the share of all things of all periods. */
  readonly centre: number;
  readonly points: readonly ControlPoint[];
}

/**
 * The p-chart of periods with any numbers of things, a point a period in their order (NIST/SEMATECH e-Handbook 6.3.3.2;
 * see {@link controlPoint}). Null where there is not one thing in all of them.
 */
export function pChart(periods: readonly Period[]): PChart | null {
  const of = periods.reduce((sum, period) => sum + period.of, 0);
  if (of === 0) return null;
  const centre = periods.reduce((sum, period) => sum + period.count, 0) / of;
  return { centre, points: periods.map((period) => controlPoint(centre, period)) };
}
