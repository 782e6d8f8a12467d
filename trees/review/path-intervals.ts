import type { FaultModel } from '../belief/index.ts';
import { quantiles } from '../statistics/index.ts';
import type { Draw } from './gamma.ts';
import { drawnChances } from './path-chances.ts';
import { flowed, send, sharesOf, type Chances, type Flowed, type PathFlow } from './path-flow.ts';

/** Enough for the 5 % and 95 % points to lie within about two points of percent of where endless draws would have them. */
export const DRAWS = 400;
/** A tree whose every flow takes more multiplications than this is not drawn for: it would take longer than about a second. */
const MOST_WORK = 500_000;

/** Shares are kept as so many parts of one, far finer than the draws tell them apart. */
const PARTS = 1e9;

/** By branch, the 5 % and 95 % points of its share. */
export interface Intervals {
  readonly low: Float64Array;
  readonly high: Float64Array;
}

/** The 90 % credible intervals of all branches; null where they would take too long. */
export function intervalsOf(
  model: FaultModel,
  flow: PathFlow,
  mean: Chances,
  means: Flowed,
  random: Draw,
): Intervals | null {
  if (workOf(flow) > MOST_WORK) return null;
  const { chances, draw } = drawnChances(model, flow, mean, means, random);
  const shares = new Float64Array(flow.branches);
  const drawn = new Uint32Array(flow.branches * DRAWS);
  const into = flowed(flow);
  for (let made = 0; made < DRAWS; made += 1) {
    draw();
    send(flow, chances, into);
    sharesOf(flow, into, shares);
    for (let branch = 0; branch < shares.length; branch += 1)
      drawn[branch * DRAWS + made] = Math.round((shares[branch] ?? 0) * PARTS);
  }
  const points = Array.from(shares, (_, branch) =>
    quantiles(drawn.subarray(branch * DRAWS, branch * DRAWS + DRAWS), [0.05, 0.95]),
  );
  return {
    low: Float64Array.from(points, (point) => (point?.[0] ?? 0) / PARTS),
    high: Float64Array.from(points, (point) => (point?.[1] ?? PARTS) / PARTS),
  };
}

function workOf({ states, findings }: PathFlow): number {
  return states.reduce((sum, { results }) => sum + findings * results, 0);
}
