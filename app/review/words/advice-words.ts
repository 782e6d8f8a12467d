import type { Estimate, PlannerWorth } from '../../../trees/review/index.ts';
import { counted, countWords, lengthWords } from './figures.ts';

/** What the advice saved, or why that cannot be said. */
export function savedWords({ saved, kinds, taken, notTaken }: PlannerWorth): string {
  if (taken === 0)
    return 'In no confirmed job here was the planner’s advice taken yet, so that nothing can be said of its worth.';
  if (saved === null)
    return `Too few to say: advice was taken in ${countWords(taken)} confirmed jobs and not in ${countWords(notTaken)}, but no kind of job (one symptom and finding) has 5 of both.`;
  const chance = saved.low <= 0 && saved.high >= 0;
  return `in ${counted(saved.jobs, 'job')} of ${counted(kinds, 'kind')} where it was taken. ${chance ? 'The interval holds nothing at all too: this may be chance.' : ''}`.trim();
}

/** An estimate with its interval. */
export function estimateWords({ minutes, low, high }: Estimate): string {
  return `${lengthWords(minutes)} (${lengthWords(low)} to ${lengthWords(high)})`;
}
