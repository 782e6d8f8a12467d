import type { FirstTimeFix, MonthPoint, Review } from '../../../trees/review/index.ts';
import { rateOf } from '../../../trees/statistics/index.ts';
import { percent } from '../../parts/index.ts';
import { monthTitle } from './days.ts';
import { mayJudgeMonths } from './enough.ts';
import { chanceWords, counted, countWords, rangeWords } from './figures.ts';

/** So many months are told one by one. */
const TOLD = 3;

/** What is left of it where only jobs are judged that can come back no more; empty where those are all jobs. */
export function judgedWords({ closed, judged }: FirstTimeFix): string {
  if (judged.closed === closed) return '';
  if (judged.closed === 0)
    return 'All of them may still come back, which can but lower this: it is not known yet.';
  const { share, low, high } = rateOf(judged.fixed, judged.closed);
  return `Of the ${counted(judged.closed, 'job')} that can come back no more as their window has passed it is ${percent(share)} (${rangeWords(low, high)}).`;
}

/** Whether first-time fix is getting better or worse, or goes up and down by chance; and the months that stand out. */
export function trendWords(review: Review): string {
  const notYet = mayJudgeMonths(review);
  if (notYet !== null) return notYet;
  return [lineWords(review), monthsOutWords(review)].filter((words) => words !== null).join(' ');
}

/** Below this a line would be called more than chance if it were looked at once. */
const MAYBE = 0.05;

/** Which way first-time fix goes over all the months; null where all or none of the jobs were fixed the first time. */
export function lineWords({ trend }: Review): string | null {
  if (trend === null) return null;
  const { months, perMonth, chance, differs } = trend;
  const over = `over ${counted(months, 'month')}`;
  if (!differs && chance < MAYBE)
    return `Perhaps getting ${perMonth > 0 ? 'better' : 'worse'} ${over} (p ${chanceWords(chance)}), but not surely: for what is looked at month after month only p below 0.003 is called more than chance.`;
  if (!differs) return `Neither better nor worse by more than chance ${over} (p ${chanceWords(chance)}).`;
  const points = String(Number((Math.abs(perMonth) * 100).toPrecision(2)));
  const way = perMonth > 0 ? ['better', 'rises'] : ['worse', 'falls'];
  return `Getting ${way[0] ?? ''}: it ${way[1] ?? ''} by ${points} points a month ${over}, more than chance (p ${chanceWords(chance)}).`;
}

function monthsOutWords(review: Review): string {
  const out = review.byMonth.filter(({ outOfControl }) => outOfControl);
  if (out.length === 0) return 'No single month stands out from the rest by more than chance.';
  const told = out.slice(-TOLD).map(monthWords).join('; ');
  const others = out.length > TOLD ? `; and ${String(out.length - TOLD)} before` : '';
  return `Out of control, so more than chance: ${told}${others}. Ask what was different then.`;
}

function monthWords({ month, rate, closed, low, high }: MonthPoint): string {
  const side = rate > high ? 'above' : 'below';
  return `${monthTitle(month)}, ${percent(rate)} of ${countWords(closed)}, ${side} its limits of ${rangeWords(low, high)}`;
}

/** How a month stands to its limits, in a word. */
export function monthVerdict({ outOfControl, provisional, rate, high }: MonthPoint): string {
  if (!outOfControl) return provisional ? 'may still change' : 'within';
  if (provisional) return 'below already: more than chance';
  return rate > high ? 'above: more than chance' : 'below: more than chance';
}
