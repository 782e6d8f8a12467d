import { choose, daysToBack, type ChosenBlock } from './choose.ts';
import type { Facts, ReviewFilter } from './fact.ts';
import type { Slice } from './slice.ts';
import { belongingTo, type Belongs } from './slices.ts';

/** The jobs behind a figure: how many, and the places of those that were asked for, newest first. */
export interface SliceJobs {
  readonly total: number;
  readonly places: readonly number[];
  /** Beside `places`: the day after closing, the first being 1, on which the unit was back; 0 where it was not. */
  readonly backOn: readonly number[];
  /** Beside `places`: remedies whose proof was made and which did not mend the unit. */
  readonly failed: readonly number[];
}

/** Which of the jobs behind a figure to give: so many of those before a place. */
export interface JobsPage {
  readonly before: number | null;
  readonly limit: number;
}

/**
 * The jobs behind a figure of `reviewOf` by the same filter and `now`. Of `shown` they are the jobs that had at least one such
 * percentage, which may have had several. `ways`, by a way's code, says which ways go by a branch (`waysBy`); of a branch there
 * is no job where it is absent.
 */
export function jobsOf(
  facts: Facts,
  filter: ReviewFilter,
  now: number,
  slice: Slice,
  page: JobsPage,
  ways: Uint8Array | null = null,
): SliceJobs {
  const chosen = choose(facts, filter, now);
  const belongs = slice.kind === 'branch' ? goingBy(ways) : belongingTo(slice, chosen);
  const before = page.before ?? Infinity;
  const places: number[] = [];
  const backOn: number[] = [];
  const failed: number[] = [];
  let total = 0;
  for (const block of chosen.blocks.toReversed()) {
    const isIn = belongs(block);
    for (let at = block.rows.length - 1; at >= 0; at -= 1) {
      if (!isIn(at)) continue;
      total += 1;
      const row = block.rows[at] ?? 0;
      const place = block.columns.place[row] ?? 0;
      if (places.length >= page.limit || place >= before) continue;
      places.push(place);
      backOn.push(daysToBack(block.columns.closedAt[row] ?? 0, block.columns.backAt[row] ?? 0, now));
      failed.push(block.columns.failed[row] ?? 0);
    }
  }
  return { total, places, backOn, failed };
}

function goingBy(ways: Uint8Array | null): (block: ChosenBlock) => Belongs {
  return ({ columns: { way }, rows }) =>
    (at) =>
      ways?.[way[rows[at] ?? 0] ?? 0] === 1;
}
