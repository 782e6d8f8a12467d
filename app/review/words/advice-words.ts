import type { Estimate, PlannerWorth } from '../../../trees/review/index.ts';
import { counted, countWords, lengthWords } from './figures.ts';

/** Whether nothing at all is within an estimate's interval. */
export function mayBeChance({ low, high }: Estimate): boolean {
  return low <= 0 && high >= 0;
}

/** What was saved in a few words; no figure where it may be chance. */
export function savedGist({ saved }: PlannerWorth): string {
  if (saved === null) return 'too few to say';
  if (mayBeChance(saved)) return 'may be nothing: chance';
  return saved.minutes > 0
    ? `${lengthWords(saved.minutes)} saved`
    : `took ${lengthWords(-saved.minutes)} more`;
}

/** What the advice saved, or why that cannot be said. */
export function savedWords({ saved, kinds, taken, notTaken }: PlannerWorth): string {
  if (taken === 0)
    return 'In no confirmed job here was the planner’s advice taken yet, so that nothing can be said of its worth.';
  if (saved === null)
    return `Too few to say: advice was taken in ${counted(taken, 'confirmed job')} and not in ${countWords(notTaken)}, but no kind of job (one symptom and finding) has 5 of both.`;
  return `in ${counted(saved.jobs, 'job')} of ${counted(kinds, 'kind')} where it was taken. ${mayBeChance(saved) ? 'The interval holds nothing at all too: this may be chance.' : ''}`.trim();
}

/** An estimate with its interval. */
export function estimateWords({ minutes, low, high }: Estimate): string {
  return `${lengthWords(minutes)} (${lengthWords(low)} to ${lengthWords(high)})`;
}
