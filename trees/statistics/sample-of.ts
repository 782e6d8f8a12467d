/** Values summed up. */
export interface Sample {
  readonly count: number;
  readonly mean: number;
  /** Sample variance (n - 1); 0 of a single value. */
  readonly variance: number;
}

/** Count, mean and sample variance of values, in two passes, so that no digits cancel. Null of none. */
export function sampleOf(values: ArrayLike<number>): Sample | null {
  const count = values.length;
  if (count === 0) return null;
  let sum = 0;
  for (let index = 0; index < count; index++) sum += values[index] ?? 0;
  const mean = sum / count;
  let squares = 0;
  for (let index = 0; index < count; index++) squares += ((values[index] ?? 0) - mean) ** 2;
  return { count, mean, variance: count === 1 ? 0 : squares / (count - 1) };
}
