import quantile from '@stdlib/stats-base-dists-beta-quantile';

/**
 * The t that a share `within` (0..1, neither of them) of Student's distribution lies between -t and t, with `degrees` of freedom
 * above 0, whole or not: t² / (degrees + t²) has the beta distribution of 1/2 and degrees/2 (Abramowitz & Stegun, 26.5.27 and
 * 26.7.1). To 1e-8 of t.
 */
export function studentQuantile(degrees: number, within: number): number {
  const share = quantile(within, 0.5, degrees / 2);
  return Math.sqrt((degrees * share) / (1 - share));
}
