import type { Review, Spread, SymptomMinutes } from '../../../trees/review/index.ts';
import { ENOUGH } from './enough.ts';
import { counted, minuteFigure } from './figures.ts';

/** A spread as median and quartiles: `18 (11 to 31)`. */
export function spreadWords(spread: Spread | null): string {
  if (spread === null) return '–';
  return `${minuteFigure(spread.median)} (${minuteFigure(spread.lower)} to ${minuteFigure(spread.upper)})`;
}

/** Between which minutes half of the jobs came to the finding, in a sentence; empty where they are too few to have a half. */
export function halfWords(spread: Spread | null): string {
  if (spread === null || spread.jobs < ENOUGH.half) return '';
  const { lower, upper } = spread;
  return `Half of the jobs came to the finding in ${minuteFigure(lower)} to ${minuteFigure(upper)} min.`;
}

/** Of which job a middle length of time is. */
export function middleOf({ jobs }: Spread): string {
  return jobs === 1 ? 'the one job there is' : `the middle one of ${counted(jobs, 'job')}`;
}

/** A mean with its interval: `15 (13 to 17)`; a limit below none is none. */
export function meanWords(
  mean: number,
  among: { readonly low: number; readonly high: number } | null,
): string {
  if (among === null) return minuteFigure(mean);
  return `${minuteFigure(mean)} (${minuteFigure(Math.max(0, among.low))} to ${minuteFigure(among.high)})`;
}

/** How the mean to the finding stands to what the tree expects, which is a mean, in the bounds of chance. */
export function againstTree({ toFinding, expected, meanToFinding: mean }: SymptomMinutes): string {
  if (toFinding === null || expected === null || mean === null) return 'not known';
  if (toFinding.jobs < ENOUGH.spread) return `from ${String(ENOUGH.spread)} jobs on`;
  if (expected.toFinding < mean.low) return LONGER;
  return expected.toFinding > mean.high ? SHORTER : 'no more than chance';
}

const LONGER = 'longer';
const SHORTER = 'shorter';

/** How many of the symptoms take longer than their tree expects by more than chance, of those with jobs enough to say. */
export function longerWords({ minutes }: Pick<Review, 'minutes'>): string {
  const verdicts = minutes.map(againstTree);
  const known = minutes.filter(({ expected }) => expected !== null).length;
  const judged = verdicts.filter((one) => [LONGER, SHORTER, 'no more than chance'].includes(one)).length;
  if (known === 0) return '';
  if (judged === 0)
    return `Whether a symptom takes longer than its tree expects cannot be said yet: that takes ${String(ENOUGH.spread)} jobs of it with a confirmed finding.`;
  const longer = verdicts.filter((one) => one === LONGER).length;
  const of = `of ${counted(judged, 'symptom')} with jobs enough`;
  if (longer === 0) return `On average none ${of} takes longer than its tree expects by more than chance.`;
  return `On average ${String(longer)} ${of} take${longer === 1 ? 's' : ''} longer than the tree expects, by more than chance.`;
}
