import type { ReviewNames, ReviewPage } from '../../../main/contract/index.ts';
import type { Branch, FirstTimeFix, MonthPoint, Spread } from '../../../trees/review/index.ts';
import { clockWords, dayWords, percent } from '../../parts/index.ts';
import { rateOfJudged, sideOfJudged } from '../plots/lay-funnel.ts';
import { ENOUGH, mayJudgeMonths, tooFewWords } from '../words/enough.ts';
import { counted, countWords, lengthWords, rangeWords } from '../words/figures.ts';
import { dayTitle, monthTitle } from '../words/days.ts';
import { resultTitle, symptomTitle, testTitle, treeTitle } from '../words/titles.ts';
import type { MonthRecord } from './sheet-desk.svelte.ts';
import { spanOf, windowsEnd, yearUpTo } from './months.ts';

/** How a month stands: how sure its figure is, and whether it is another than the months beside it. */
export function monthStanding(record: MonthRecord): string {
  const { month, page, year } = record;
  const fix = page.review.firstTimeFix;
  const point = year.review.byMonth.find((one) => one.month === month);
  const few = tooFewWords(fix, fix.closed);
  const missing = monthsMissing(record);
  return [few, point === undefined || missing !== null ? null : againstOthers(point)]
    .filter((one) => one !== null)
    .join(' ');
}

/** Why no month is judged yet; null where months are. */
export function monthsMissing(record: MonthRecord): string | null {
  const { review } = record.year;
  if (review.jobs >= ENOUGH.jobs) return mayJudgeMonths(review);
  return `Too few to set months beside each other: ${counted(review.jobs, 'job')} since ${sinceWords(record)}; from ${String(ENOUGH.jobs)} on this starts to mean something.`;
}

function againstOthers(point: MonthPoint): string {
  if (point.provisional && !point.outOfControl)
    return 'Units of this month may still come back, so that it is not judged against the months before it yet.';
  const limits = `${rangeWords(point.low, point.high)}, where chance alone leaves a month of so many jobs`;
  if (!point.outOfControl) return `It is within ${limits}.`;
  return `It is ${point.rate > point.high ? 'above' : 'below'} ${limits}: ask what was different.${point.provisional ? ' Units that may still come back can but lower it.' : ''}`;
}

/** Since when the months beside the sheet's are told of: their first one, or the day on which the record begins in them. */
export function sinceWords({ month, page }: Pick<MonthRecord, 'month' | 'page'>): string {
  const { from } = yearUpTo(month);
  const { first } = page.review.record;
  return first !== null && first > from ? dayTitle(first) : monthTitle(from.slice(0, 7));
}

/** Whether units that were fixed in the month may still come back within the window. */
export function mayComeBack({
  month,
  filter,
  page,
}: Pick<MonthRecord, 'month' | 'filter' | 'page'>): boolean {
  return page.review.asOf < windowsEnd(month, filter.window);
}

/** How a technician's rate stands to the month's, by the jobs whose window has passed, in a few words. */
export function personVerdict(person: FirstTimeFix, all: FirstTimeFix): string {
  if (tooFewWords(person, person.closed) !== null) return 'too few to say';
  if (person.judged.closed === 0) return 'not judged yet';
  const side = sideOfJudged(person.judged, rateOfJudged(all.judged));
  return side === 'within' ? side : `${side}: more than chance`;
}

/** When the figures were reckoned, and whether the month was over then. */
export function asOfWords({ month, page }: Pick<MonthRecord, 'month' | 'page'>): string {
  const at = new Date(page.review.asOf).toISOString();
  const words = `As of ${dayWords(at)}, ${clockWords(at)}`;
  return at.slice(0, 10) > spanOf(month).to ? `${words}.` : `${words}: the month is not over yet.`;
}

/** A length of time by its middle job. */
export function middleWords(spread: Spread | null): string {
  return spread === null ? 'not known yet' : lengthWords(spread.median);
}

/** Between which half of the jobs lie. */
export function halfWords(spread: Spread | null): string {
  if (spread === null) return 'from the first confirmed finding on';
  const { jobs, lower, upper } = spread;
  if (jobs < ENOUGH.half) return `of ${counted(jobs, 'job')}`;
  return `half of ${counted(jobs, 'job')}: ${lengthWords(lower)} to ${lengthWords(upper)}`;
}

/** What a branch does otherwise than its author expected. */
export function branchSentence({ passed, took, authored, now, low, high }: Branch): string {
  const seen = took / passed;
  const interval = low === null || high === null ? '' : ` (${rangeWords(low, high)})`;
  return (
    `${seen > authored ? 'more' : 'less'} often than expected: ${countWords(took)} of ${counted(passed, 'unit')} that came by, ` +
    `${percent(seen)}, where the author expected ${percent(authored)}; likely now: ${percent(now)}${interval}.`
  );
}

/** A branch by its test and result. */
export function branchName(names: ReviewNames, { tree, test, result }: Branch): string {
  return `${testTitle(names, tree, test)}: ${resultTitle(names, tree, test, result)}`;
}

/** Whose path a branch is of. */
export function branchPath({ names, review }: ReviewPage, { tree, symptom }: Branch): string {
  const path = symptomTitle(names, tree, symptom);
  return review.byTree.length > 1 ? `${path}, ${treeTitle(names, tree)}` : path;
}

/** What stands at the foot of every leaf. */
export function footWords(record: MonthRecord, narrowed: string): string {
  const of = narrowed === '' ? '' : `, jobs ${narrowed}`;
  const invented = record.page.invented ? ' · invented jobs among them' : '';
  return `${monthTitle(record.month)}${of} · ${asOfWords(record).replace(/\.$/, '')}${invented}`;
}
