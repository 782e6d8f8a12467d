interface Wanted {
  readonly at: number;
  readonly height: number;
}

/** Labels that touch: where the upper edge of all of the column would lie, were they where they are wanted on the average. */
interface Run {
  readonly top: number;
  readonly count: number;
}

/**
 * Middles of labels of these heights, given from the top down: as near to where they are wanted as they can be between
 * `from` and `to` (least squares), none over another. In too small a room they run out of it at the bottom.
 */
export function settleLabels(wanted: readonly Wanted[], from: number, to: number): readonly number[] {
  const total = wanted.reduce((sum, { height }) => sum + height, 0);
  const tops = runsOf(wanted).flatMap(({ top, count }) => Array.from({ length: count }, () => top));
  let before = 0;
  return wanted.map(({ height }, index) => {
    const middle = Math.max(from, Math.min(tops[index] ?? from, to - total)) + before + height / 2;
    before += height;
    return middle;
  });
}

/** Joins labels that would overlap, from the top down, until none does (pool adjacent violators). */
function runsOf(wanted: readonly Wanted[]): readonly Run[] {
  const runs: Run[] = [];
  let before = 0;
  for (const { at, height } of wanted) {
    let run: Run = { top: at - before - height / 2, count: 1 };
    for (let last = runs.at(-1); last !== undefined && last.top > run.top; last = runs.at(-1)) {
      runs.pop();
      const count = last.count + run.count;
      run = { top: (last.top * last.count + run.top * run.count) / count, count };
    }
    runs.push(run);
    before += height;
  }
  return runs;
}
