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

/** How the middle half of the lengths stands to what the tree expects. */
export function againstTree({ toFinding, expected }: SymptomMinutes): string {
  if (toFinding === null || expected === null) return 'not known';
  if (toFinding.jobs < ENOUGH.spread) return `from ${String(ENOUGH.spread)} jobs on`;
  if (expected.toFinding < toFinding.lower) return 'mostly longer';
  return expected.toFinding > toFinding.upper ? 'mostly shorter' : 'within the middle half';
}

/** How many of the symptoms mostly take longer than their tree expects. */
export function longerWords({ minutes }: Review): string {
  const longer = minutes.filter((one) => againstTree(one) === 'mostly longer').length;
  if (longer === 0) return 'No symptom mostly takes longer than its tree expects.';
  return `${counted(longer, 'symptom')} of ${String(minutes.length)} mostly take${longer === 1 ? 's' : ''} longer than the tree expects.`;
}
