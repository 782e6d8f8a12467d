/**
 * The t that a share `within` of Student's distribution with so many (whole) degrees of freedom lies between -t and t:
 * found by halving on the distribution's finite series (Abramowitz & Stegun, 26.7.3 and 26.7.4), to 1e-9 of t.
 */
export function studentQuantile(degrees: number, within: number): number {
  let [low, high] = [0, 1];
  while (studentShare(high, degrees) < within) high *= 2;
  while (high - low > 1e-9 * high) {
    const middle = (low + high) / 2;
    if (studentShare(middle, degrees) < within) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

/** A(t | degrees): the share of the distribution between -t and t. */
function studentShare(t: number, degrees: number): number {
  const angle = Math.atan(t / Math.sqrt(degrees));
  const cosine = Math.cos(angle);
  const isOdd = degrees % 2 === 1;
  if (degrees === 1) return (2 * angle) / Math.PI;
  let term = isOdd ? cosine : 1;
  let sum = term;
  for (let power = isOdd ? 3 : 2; power <= degrees - 2; power += 2) {
    term *= ((power - 1) / power) * cosine * cosine;
    sum += term;
  }
  return isOdd ? (2 / Math.PI) * (angle + Math.sin(angle) * sum) : Math.sin(angle) * sum;
}
