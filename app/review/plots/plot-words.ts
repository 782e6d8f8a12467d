import type { CalibrationBin, CurvePoint, FirstTimeFix, MonthPoint } from '../../../trees/review/index.ts';
import { percent } from '../../parts/index.ts';
import { counted, countWords } from '../words/figures.ts';
import type { LaidDay } from './lay-comeback-curve.ts';
import { rateOfJudged, type LaidTechnician } from './lay-funnel.ts';
import { monthWords } from './month-ticks.ts';

/** What stands below a plot while nothing is pointed at. */
export const POINT = 'Point at the plot to read its figures.';
export const PRESS = 'Point at the plot to read its figures; press to see the jobs.';

/** A p-chart in a sentence or two. */
export function controlSummary(points: readonly MonthPoint[], centre: number | null): string {
  const [first, last] = [points[0], points.at(-1)];
  if (first === undefined || last === undefined) return 'First-time fix by month: no jobs';
  const span =
    first === last ? monthWords(first.month) : `${monthWords(first.month)} to ${monthWords(last.month)}`;
  if (centre === null) return `First-time fix by month, ${span}; no month can be judged yet`;
  const out = points.filter(({ outOfControl }) => outOfControl);
  const told = out.length === 0 ? 'none' : out.map(({ month }) => monthWords(month)).join(', ');
  return `First-time fix by month, ${span}; centre line ${percent(centre)}; outside the limits: ${told}`;
}

/** A month's figures. */
export function monthReading(point: MonthPoint, centre: number | null): string {
  const { month, fixed, closed, rate, low, high, provisional, outOfControl } = point;
  const fix = `${monthWords(month)}: ${percent(rate)} fixed the first time, ${countWords(fixed)} of ${counted(closed, 'job')}`;
  const limits = centre === null ? '' : `; limits ${percent(low)} to ${percent(high)}`;
  const open = provisional ? '; provisional, as some may still come back' : '';
  if (!outOfControl) return `${fix}${limits}${open}`;
  return `${fix}${limits}; ${rate < low ? 'below' : 'above'} the limits${open}`;
}

/** The comeback-free curve in a sentence. */
export function curveSummary(
  points: readonly CurvePoint[],
  window: number,
  atWindow: CurvePoint | null,
): string {
  const units = points[0]?.atRisk ?? 0;
  const followed = `Share of fixed units not back, by days since closing; ${counted(units, 'unit')}`;
  if (atWindow === null) return `${followed}; none followed for ${String(window)} days yet`;
  const { survival, low, high } = atWindow;
  return `${followed}; after ${String(window)} days ${percent(survival)}, 95\u202f% interval ${percent(low)} to ${percent(high)}`;
}

/** A day of the curve. */
export function dayReading({ point, backSoFar }: LaidDay): string {
  const { days, survival, low, high, atRisk } = point;
  const back = counted(backSoFar, 'unit');
  return (
    `${days === 1 ? '1 day' : `${String(days)} days`}: ${percent(survival)} not back, ` +
    `95\u202f% interval ${percent(low)} to ${percent(high)}; ${back} back so far, ${countWords(atRisk)} at risk`
  );
}

/** The funnel in a sentence. */
export function funnelSummary(points: readonly LaidTechnician[], overall: FirstTimeFix): string {
  const out = points.filter(({ outside }) => outside).map(({ technician }) => technician.name);
  const told = out.length === 0 ? 'nobody' : out.join(', ');
  return `First-time fix by technician against the number of jobs whose window has passed; overall ${percent(rateOfJudged(overall.judged))}; outside what chance does in 998 of 1000: ${told}`;
}

/** A technician's figures. */
export function technicianReading({ technician, outside }: LaidTechnician): string {
  const { name, judged } = technician;
  const where = outside ? 'outside' : 'within';
  return (
    `${name}: ${percent(rateOfJudged(judged))} fixed the first time, ${countWords(judged.fixed)} of ${counted(judged.closed, 'job')}; ` +
    `${where} what chance does in 998 of 1000`
  );
}

/** The reliability diagram in a sentence. */
export function reliabilitySummary(bins: readonly CalibrationBin[]): string {
  const shown = bins.filter(({ count }) => count > 0);
  const told = shown.map(({ forecast, observed }) => `${percent(forecast)} shown, ${percent(observed)} were`);
  return `How often a finding shown as likely was the one, by tenths; ${told.join('; ')}`;
}

/** A tenth's figures. */
export function binReading({
  from,
  to,
  count,
  confirmed,
  forecast,
  observed,
  low,
  high,
}: CalibrationBin): string {
  return (
    `${percent(from)} to ${percent(to)}: shown ${countWords(count)} times, ${percent(forecast)} on average; ` +
    `the finding in ${countWords(confirmed)}, ${percent(observed)}, 95\u202f% interval ${percent(low)} to ${percent(high)}`
  );
}
