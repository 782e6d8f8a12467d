import { OUTCOMES } from '../chart/index.ts';
import { rateOf } from '../statistics/index.ts';
import type { Chosen } from './choose.ts';
import type { Review } from './figures.ts';

/** The shares of all outcomes, those too that no job had. */
export function outcomesOf({ blocks, jobs }: Chosen): Review['outcomes'] {
  const counts = new Uint32Array(OUTCOMES.length);
  for (const { columns, rows } of blocks) {
    for (let at = 0; at < rows.length; at += 1) {
      const outcome = columns.outcome[rows[at] ?? 0] ?? 0;
      counts[outcome] = (counts[outcome] ?? 0) + 1;
    }
  }
  return OUTCOMES.map((outcome, place) => ({ outcome, ...rateOf(counts[place] ?? 0, jobs) }));
}
