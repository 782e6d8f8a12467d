import {
  anyOf,
  move,
  openFlows,
  pour,
  unitsGiving,
  unitsIn,
  type Flow,
  type Flows,
} from './evaluate-flow.ts';
import type { Doing, Halt } from './evaluate-leg.ts';
import type { PassBranch } from './evaluate-spot.ts';
import { standsOf, type Stand, type Stands } from './evaluate-stands.ts';
import type { Tally } from './evaluate-tally.ts';
import { thinner } from './evaluate-thin.ts';
import type { World } from './evaluate-world.ts';
import { openRanks, type Ranks } from './ranks.ts';

export interface SweepLimits {
  /** Of states less likely than this, some stand for the others. */
  readonly smallest: number;
  /** No more states than this are looked into; the rest is cut off. */
  readonly states: number;
}

/** Is told each branch that units go along, and how many of them. */
export type Passed = (step: number, result: number, units: number) => void;

interface State {
  readonly key: string;
  readonly stand: Stand;
  readonly flow: Flow;
}

/** What a sweep goes by, and where what it comes to is kept. */
interface Sweep {
  readonly world: World;
  readonly tally: Tally;
  readonly passed: Passed | undefined;
  readonly stands: Stands;
  readonly ranks: Ranks<State>;
  readonly flows: Flows;
}

/** To go through a state where they are thinned out is a part of the work that it is to look into it. */
const THINNING = 0.2;

/**
 * Lets one unit of flow go down all ways of a job and tallies what is done. States are taken in the order of their ranks,
 * so that all that flows into one has come before it is looked into. What is given back goes on for about so many states more, and
 * says whether there are any left.
 */
export function startSweep(
  world: World,
  tally: Tally,
  limits: SweepLimits,
  passed?: Passed,
): (most: number) => boolean {
  const [stands, ranks, flows] = [standsOf(world), openRanks<State>(), openFlows(world.prior.length)];
  const going = goDown({ world, tally, passed, stands, ranks, flows }, limits);
  return (most) => {
    for (let made = 0; made < most;) {
      const next = going.next();
      if (next.done === true) return false;
      made += next.value;
    }
    return true;
  };
}

/** Gives how many states' worth of work has been done, each time. */
function* goDown(sweep: Sweep, { smallest, states }: SweepLimits): Generator<number, void, void> {
  const { world, tally, stands, ranks, flows } = sweep;
  stateAt(sweep, stands.first).flow.table.set(world.prior);
  const thin = thinner<State>(smallest, ({ flow }) => flows.giveBack(flow));
  let left = states;
  for (let all = ranks.next(); all !== undefined; all = ranks.next()) {
    const thinning = thin(all);
    let thinned = thinning.next();
    for (; thinned.done !== true; thinned = thinning.next()) yield thinned.value * THINNING;
    for (const state of thinned.value) {
      if (left === 0) tally.cut(state.flow);
      else {
        left -= 1;
        expand(sweep, state);
      }
      flows.giveBack(state.flow);
      yield 1;
    }
  }
}

function stateAt({ ranks, flows }: Sweep, stand: Stand): State {
  const { key, rank } = stand;
  return ranks.at(rank, key, () => ({ key, stand, flow: flows.take() }));
}

function expand(sweep: Sweep, { stand, flow }: State): void {
  const { world, tally, passed, stands } = sweep;
  const { doings, halt } = stands.leg(stand);
  for (const doing of doings) follow(world, tally, doing, flow);
  if (halt.kind !== 'test') {
    tally.end(halt, flow);
    return;
  }
  tally.test(halt.test, flow);
  const { results } = world.layout.tests[halt.test] ?? { results: [] };
  for (let result = 0; result < results.length; result += 1) {
    const shares = sharesOf(world, halt, result);
    if (!anyOf(flow, shares)) continue;
    const after = stands.after(stand, halt, result, passed && passing(passed, flow, shares));
    pour(flow, stateAt(sweep, after).flow, shares);
  }
}

function passing(passed: Passed, flow: Flow, shares: Float64Array): PassBranch {
  const units = unitsGiving(flow, shares);
  return (step, result) => passed(step, result, units);
}

function follow(world: World, tally: Tally, doing: Doing, flow: Flow): void {
  tally.do(doing, unitsIn(flow));
  if (doing.kind !== 'remedy') return;
  move(flow, world.model.row(doing.finding), world.mended, world.model.fixRate(doing.finding));
}

/** By row, the share of the units that give a result: P(r|f,t), and all or none of those mended. */
function sharesOf(world: World, { test, sound }: Halt & { kind: 'test' }, result: number): Float64Array {
  const shares = world.shares(test, result);
  shares[world.mended] = result === sound ? 1 : 0;
  return shares;
}
