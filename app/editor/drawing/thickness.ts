const HAIR = 1;
const WIDEST = 9;

/**
 * A branch's width in pixels at natural size: from 1 where no unit passes to 9 where all do, by the square root of the
 * share (0..1), so that rare branches can still be told apart. The share itself stands beside it in figures.
 */
export function thickness(share: number): number {
  return HAIR + (WIDEST - HAIR) * Math.sqrt(Math.min(1, Math.max(0, share)));
}
