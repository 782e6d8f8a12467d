import { OUTCOMES } from '../chart/index.ts';
import { rateOf } from '../statistics/index.ts';
import type { Chosen, ChosenBlock } from './choose.ts';
import { countedOnce } from './counted-once.ts';
import type { Review } from './figures.ts';
import type { Tally } from './tally.ts';

/** The shares of all outcomes, those too that no job had. */
export function openOutcomes({ jobs }: Chosen): Tally<Review['outcomes']> {
  const counts = new Uint32Array(OUTCOMES.length);
  return {
    add: (block) => add([counts], block),
    result: () => OUTCOMES.map((outcome, place) => ({ outcome, ...rateOf(counts[place] ?? 0, jobs) })),
  };
}

const add = countedOnce(([counts]: readonly [Uint32Array], { columns, rows }: ChosenBlock): void => {
  const { outcome } = columns;
  for (let at = 0; at < rows.length; at += 1) {
    const place = outcome[rows[at] ?? 0] ?? 0;
    counts[place] = (counts[place] ?? 0) + 1;
  }
});
