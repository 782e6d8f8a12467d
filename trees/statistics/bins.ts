/** How many bins there are for whole numbers of 32 bits. */
export const BINS = 25 * 128 + 128;

/** The bin of a whole number below 2^32: bins ascend with the numbers, one a number up to 255, then 128 for each doubling. */
export function binOf(value: number): number {
  const shift = Math.max(0, 24 - Math.clz32(value));
  return shift * 128 + (value >>> shift);
}
