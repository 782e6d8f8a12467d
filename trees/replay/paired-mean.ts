import { studentQuantile } from '../statistics/index.ts';

/** The share of intervals made so that hold the true mean, were the jobs drawn at random and their differences normal. */
export const CONFIDENCE = 0.95;

export interface PairedMean {
  readonly jobs: number;
  readonly mean: number;
  /** Null from a single job, which says nothing of how much they differ. */
  readonly interval: { readonly from: number; readonly to: number } | null;
}

/**
 * The mean of differences on the same jobs with its interval, mean ± t s / sqrt(n): s is the differences' sample standard
 * deviation (n - 1), t that of Student's distribution with n - 1 degrees of freedom (the paired t interval). Null
 * without a job.
 */
export function pairedMean(differences: readonly number[]): PairedMean | null {
  const jobs = differences.length;
  if (jobs === 0) return null;
  const mean = differences.reduce((sum, difference) => sum + difference, 0) / jobs;
  if (jobs === 1) return { jobs, mean, interval: null };
  const squares = differences.reduce((sum, difference) => sum + (difference - mean) ** 2, 0);
  const reach = studentQuantile(jobs - 1, CONFIDENCE) * Math.sqrt(squares / (jobs - 1) / jobs);
  return { jobs, mean, interval: { from: mean - reach, to: mean + reach } };
}
