import type { Review } from '../../../trees/review/index.ts';
import { counted } from './figures.ts';

/**
 * From how many jobs on a figure starts to mean something. Common practice for a shop's own use, no source: at 20 a share's
 * 95 % interval is some 40 points wide at most, and says more than nothing. Of 20 times that the tree is right about, chance has
 * the middle half lie off what it expects in 3 of 100, of five in 37. Of two or three months each is so much of its own centre line
 * that nearly none can be out of control: two months of 50 jobs with 90 % and 60 % would not be. Of jobs with percentages shown,
 * `calibrated` are needed for their reliability part, which chance alone makes larger the fewer there are: of 17 jobs it
 * was 0.027, of 1,708 0.0033. Of four units back, all by a finding of a quarter of the repairs, chance has them so in 1 of 256
 * for that finding, and of 20 findings somewhere in 1 of 13: `back` are needed. Fewer than `half` jobs have no half that lies between
 * others.
 */
export const ENOUGH = {
  jobs: 20,
  inSight: 10,
  back: 5,
  months: 4,
  passed: 20,
  percentages: 100,
  calibrated: 300,
  spread: 20,
  half: 4,
} as const;

/** Wider than this, an interval is called too wide to say anything. */
const TOO_WIDE = 0.4;

/** What to say of a share whose interval is too wide; null where it is not. */
export function tooFewWords(
  { low, high }: { readonly low: number; readonly high: number },
  of: number,
): string | null {
  if (of >= ENOUGH.jobs && high - low <= TOO_WIDE) return null;
  const width = String(Math.round((high - low) * 100));
  return `Too few to say: the interval is ${width} points wide. From ${String(ENOUGH.jobs)} closed jobs on this starts to mean something; there are ${String(of)}.`;
}

/** Whether the months are getting better, or it is chance. */
export function mayJudgeMonths({ byMonth, centre }: Review): string | null {
  const judged = byMonth.filter(({ provisional }) => !provisional).length;
  if (centre !== null && judged >= ENOUGH.months) return null;
  const there =
    judged === 0
      ? 'there is none yet'
      : `there ${judged === 1 ? 'is' : 'are'} only ${counted(judged, 'such month')} so far`;
  return `Whether it is getting better cannot be said: that takes ${String(ENOUGH.months)} months whose comeback window has passed, and ${there}.`;
}
