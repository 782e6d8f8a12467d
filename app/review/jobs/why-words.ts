import type { ReviewJob, ReviewSlice } from '../../../main/contract/index.ts';
import { counted } from '../words/figures.ts';

/** What a column of a list of jobs says of each: why it is there. */
export interface Why {
  readonly title: string;
  /** When the job's unit was back, where that is why; leads to the job that it was back with. */
  readonly back: (job: ReviewJob) => string | null;
  /** What else is why; empty where nothing is. */
  readonly words: (job: ReviewJob) => string;
}

type Judged = Pick<ReviewJob, 'outcome' | 'backOn' | 'failed'>;

/** Figures that are shares of first-time fix: their jobs are both fixed the first time and not, and look alike. */
const SHARES: readonly ReviewSlice['kind'][] = [
  'all',
  'not-first-time-fixed',
  'month',
  'tree',
  'symptom',
  'finding',
  'board',
  'technician',
  'judged',
];

/** Why jobs are behind a figure, where their outcome does not say it; null where it does. `window`: days of a comeback. */
export function whyIn(slice: ReviewSlice, window: number): Why | null {
  if (slice.kind === 'back' || slice.kind === 'finding-back') {
    return { title: 'Back on', back: (job) => dayBack(job, slice.within), words: () => '' };
  }
  if (!SHARES.includes(slice.kind)) return null;
  const title = slice.kind === 'not-first-time-fixed' ? 'Why' : 'Not the first time';
  return { title, back: (job) => backWords(job, window), words: vainWords };
}

/** A unit is back only after it was closed as fixed, and for a figure only within its days. */
export function backWords(job: Judged, within: number): string | null {
  const day = dayBack(job, within);
  return day === null ? null : `back on ${day}`;
}

function dayBack({ outcome, backOn }: Judged, within: number): string | null {
  return outcome !== 'fixed' || backOn === null || backOn > within ? null : `day ${String(backOn)}`;
}

/** The remedies that were tried in vain; empty where none was. */
export function vainWords({ outcome, failed }: Judged): string {
  if (failed === 0) return '';
  return `${counted(failed, 'remedy', 'remedies')} in vain${outcome === 'fixed' ? ' before' : ''}`;
}
