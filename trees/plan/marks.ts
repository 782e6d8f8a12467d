/**
 * Where a plan stands, as numbers in one row: for each test of the tree its standing result, for each finding but
 * `unlisted` whether its remedy was tried, for each axis of the bench its state.
 *
 * A test's number is its result's place plus one, 0 where none stands, with these marks:
 * `FRESH`, its answer counts for interlocks, having been given since the last remedy (without a result: a proof has
 * vouched for it); `GIVEN`, it is the job's own answer, not one that the plan foresees.
 */
export const FRESH = 0x4000;
export const GIVEN = 0x2000;
const RESULT = 0x1fff;

/** The place of a standing result; -1 where none stands. */
export function resultAt(mark: number): number {
  return (mark & RESULT) - 1;
}

/** Whether the answer counts for interlocks. */
export function isFresh(mark: number): boolean {
  return (mark & FRESH) !== 0;
}
