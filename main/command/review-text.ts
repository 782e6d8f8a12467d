import type { Estimate, Spread } from '../../trees/review/index.ts';

/** Stands for a share whose interval is too wide. */
export const TOO_FEW = 'too few to say';

/** An interval wider than this says too little; our own rule. It takes about twenty jobs to be surely narrower. */
const TOO_WIDE = 0.4;

/** Rows of a table that goes on with ever fewer jobs that are printed. */
export const MOST_ROWS = 20;

export type Lines = readonly string[];

interface Range {
  readonly low: number;
  readonly high: number;
}

export function estimate({ minutes, low, high, jobs }: Estimate): string {
  const chance = low <= 0 && high >= 0 ? ', which may be chance' : '';
  return `${minutes.toFixed(0)} minutes (${low.toFixed(0)} to ${high.toFixed(0)}) in ${counted(jobs, 'job')}${chance}`;
}

export function spread(of: Spread | null): string {
  if (of === null) return 'no job';
  return `${of.median.toFixed(1)} (${of.lower.toFixed(1)} to ${of.upper.toFixed(1)}), mean ${of.mean.toFixed(1)}, ${of.jobs}`;
}

export function share(of: number): string {
  return `${(100 * of).toFixed(1)} %`;
}

export function interval({ low, high }: Range): string {
  return `${(100 * low).toFixed(1)} to ${(100 * high).toFixed(1)} %`;
}

export function isTooWide({ low, high }: Range): boolean {
  return high - low > TOO_WIDE;
}

export function counted(of: number, what: string): string {
  return `${of} ${what}${of === 1 ? '' : 's'}`;
}

export function section(title: string, lines: Lines): Lines {
  return ['', title, ...lines];
}

export function moreLines(all: readonly unknown[]): Lines {
  return all.length > MOST_ROWS ? [`  ${all.length - MOST_ROWS} more with --json`] : [];
}
