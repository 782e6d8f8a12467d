/** From `low` to `high`, both within. */
export interface Interval {
  readonly low: number;
  readonly high: number;
}
