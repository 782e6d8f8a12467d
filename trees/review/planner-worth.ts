import { stratifiedDifference, type Stratum } from '../statistics/index.ts';
import type { ChosenBlock } from './choose.ts';
import { countedOnce } from './counted-once.ts';
import type { Estimate, PlannerWorth } from './figures.ts';
import type { KindSamples } from './kind-samples.ts';
import type { Kinds } from './kinds.ts';
import { MINUTE } from './minute.ts';
import type { Tally } from './tally.ts';

/** A kind of job says something only with as many jobs of both sorts. Our own choice: a variance of fewer is no better than a guess. */
export const ENOUGH_OF_BOTH = 5;

/** Confirmed jobs in which the planner's advice was taken, and those in which it was not. */
export function openAdvised(): Tally<Pick<PlannerWorth, 'taken' | 'notTaken'>> {
  const counts = new Uint32Array(2);
  return {
    add: (block) => countAdvised([counts], block),
    result: () => ({ taken: counts[1] ?? 0, notTaken: counts[0] ?? 0 }),
  };
}

const countAdvised = countedOnce(([counts]: readonly [Uint32Array], { columns, rows }: ChosenBlock): void => {
  const { finding, advised } = columns;
  for (let at = 0; at < rows.length; at += 1) {
    const row = rows[at] ?? 0;
    if (finding[row] === 0) continue;
    const place = (advised[row] ?? 0) > 0 ? 1 : 0;
    counts[place] = (counts[place] ?? 0) + 1;
  }
});

/**
 * What the planner's advice is worth: by kind of job (tree, symptom, finding) the difference of the mean time to the finding
 * without and with advice taken, summed over the jobs where it was taken (saved) and over those where it was not.
 */
export function worthOf(samples: KindSamples, kinds: Kinds): Omit<PlannerWorth, 'taken' | 'notTaken'> {
  const strata: Stratum[] = [];
  for (let kind = 0; kind < kinds.count; kind += 2) {
    const [done, notDone] = [samples(kind + 1), samples(kind)];
    if (done === null || notDone === null) continue;
    if (Math.min(done.count, notDone.count) >= ENOUGH_OF_BOTH) strata.push({ done, notDone });
  }
  return {
    kinds: strata.length,
    saved: inMinutes(stratifiedDifference(strata, 'done')),
    wouldSave: inMinutes(stratifiedDifference(strata, 'notDone')),
  };
}

function inMinutes(difference: ReturnType<typeof stratifiedDifference>): Estimate | null {
  if (difference === null) return null;
  const { count, total, error, degrees, low, high } = difference;
  return {
    jobs: count,
    minutes: total / MINUTE,
    error: error / MINUTE,
    degrees,
    low: low / MINUTE,
    high: high / MINUTE,
  };
}
