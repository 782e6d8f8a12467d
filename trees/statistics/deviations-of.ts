import cdf from '@stdlib/stats-base-dists-normal-cdf';

/** The normal distribution's 97.5 % point. */
const Z95 = 1.959963984540054;
/** Beyond so many standard deviations on one side lies less than a number can hold. */
const FARTHEST = 40;

/**
 * How many standard deviations either side of its mean a normal variable lies within with the chance `confidence` (0..1,
 * neither of them), to the last digits: by halving on the distribution's lower tail, which keeps them however far out.
 */
export function deviationsOf(confidence: number): number {
  if (confidence === 0.95) return Z95;
  const beyond = (1 - confidence) / 2;
  let [low, high] = [0, FARTHEST];
  for (;;) {
    const middle = (low + high) / 2;
    if (middle <= low || middle >= high) return middle;
    if (cdf(-middle, 0, 1) > beyond) low = middle;
    else high = middle;
  }
}
