import { OUTCOMES } from '../chart/index.ts';
import { rateOf } from '../statistics/index.ts';
import type { Chosen, ChosenBlock } from './choose.ts';
import { countedOnce } from './counted-once.ts';
import type { Review } from './figures.ts';
import { MINUTE } from './minute.ts';
import type { Tally } from './tally.ts';

/** The shares of all outcomes and the minutes of their jobs, those too that no job had. */
export function openOutcomes({ jobs }: Chosen): Tally<Review['outcomes']> {
  const counts = new Uint32Array(OUTCOMES.length);
  const times = new Float64Array(OUTCOMES.length);
  return {
    add: (block) => add([counts, times], block),
    result: () =>
      OUTCOMES.map((outcome, place) => ({
        outcome,
        ...rateOf(counts[place] ?? 0, jobs),
        minutes: (times[place] ?? 0) / MINUTE,
      })),
  };
}

const add = countedOnce(
  ([counts, times]: readonly [Uint32Array, Float64Array], { columns, rows }: ChosenBlock): void => {
    const { outcome, atBench } = columns;
    for (let at = 0; at < rows.length; at += 1) {
      const row = rows[at] ?? 0;
      const place = outcome[row] ?? 0;
      counts[place] = (counts[place] ?? 0) + 1;
      times[place] = (times[place] ?? 0) + (atBench[row] ?? 0);
    }
  },
);
