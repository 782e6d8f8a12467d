import { spotsOf, type Spots } from './evaluate-course.ts';
import { legFrom, type Halt, type Leg, type Spot } from './evaluate-leg.ts';
import type { Tally } from './evaluate-tally.ts';
import type { World } from './evaluate-world.ts';
import { openRanks, type Ranks } from './ranks.ts';

export interface SweepLimits {
  /** A state less likely than this is cut off. */
  readonly smallest: number;
  /** No more states than this are looked into; the rest is cut off. */
  readonly states: number;
}

/**
 * How many units, of one, are where, by what they have: a row for each finding and one for those mended. `made` is, row
 * by row, the tests made so far times the units, so that a mean position can be had where ways of several lengths meet.
 */
export interface Flow {
  readonly units: Float64Array;
  readonly made: Float64Array;
}

interface State {
  readonly spot: Spot;
  readonly flow: Flow;
}

/** Lets one unit of flow go down all ways of a job, states in the order of their ranks, and tallies what is done. */
export function sweep(world: World, tally: Tally, { smallest, states }: SweepLimits): void {
  const spots = spotsOf(world);
  const ranks = openRanks<State>();
  const prior = { units: world.prior.slice(), made: new Float64Array(world.prior.length) };
  ranks.at(spots.rank(spots.first), spots.key(spots.first), () => ({ spot: spots.first, flow: prior }));
  let left = states;
  for (let state = ranks.next(); state !== undefined; state = ranks.next()) {
    if (left === 0 || total(state.flow.units) < smallest) {
      tally.cut(state.flow);
      continue;
    }
    left -= 1;
    expand(world, spots, ranks, tally, state);
  }
}

function expand(world: World, spots: Spots, ranks: Ranks<State>, tally: Tally, { spot, flow }: State): void {
  const { doings, halt } = legFrom(world, spot);
  follow(world, tally, doings, flow);
  if (halt.kind !== 'test') {
    tally.end(halt, flow);
    return;
  }
  tally.test(halt.test, flow);
  const { results } = world.model.test(halt.test);
  results.forEach((result, column) => {
    const share = sharer(world, halt, column);
    if (!anyFlow(flow, share)) return;
    const next = spots.after(halt.spot, halt.test, result);
    const state = ranks.at(spots.rank(next), spots.key(next), () => ({ spot: next, flow: noFlow(flow) }));
    pour(flow, state.flow, share);
  });
}

function follow(world: World, tally: Tally, doings: Leg['doings'], { units, made }: Flow): void {
  for (const doing of doings) {
    tally.do(doing, { units, made });
    if (doing.kind !== 'remedy') continue;
    const row = world.model.row(doing.finding);
    const rate = world.model.fixRate(doing.finding);
    for (const table of [units, made]) {
      const mended = (table[row] ?? 0) * rate;
      table[row] = (table[row] ?? 0) - mended;
      table[world.mended] = (table[world.mended] ?? 0) + mended;
    }
  }
}

/** The share of each row's units that give a result: P(r|f,t), and all or none of those mended. */
function sharer(
  world: World,
  { test, sound }: Halt & { kind: 'test' },
  column: number,
): (row: number) => number {
  const { results, probability } = world.model.test(test);
  const k = results.length;
  const soundly = results[column] === sound ? 1 : 0;
  return (row) => (row === world.mended ? soundly : (probability[row * k + column] ?? 0));
}

function anyFlow({ units }: Flow, share: (row: number) => number): boolean {
  return units.some((amount, row) => amount * share(row) > 0);
}

function noFlow({ units }: Flow): Flow {
  return { units: new Float64Array(units.length), made: new Float64Array(units.length) };
}

function pour(from: Flow, into: Flow, share: (row: number) => number): void {
  for (let row = 0; row < from.units.length; row += 1) {
    const part = share(row);
    const units = from.units[row] ?? 0;
    into.units[row] = (into.units[row] ?? 0) + part * units;
    into.made[row] = (into.made[row] ?? 0) + part * ((from.made[row] ?? 0) + units);
  }
}

export function total(values: Float64Array): number {
  let sum = 0;
  for (const value of values) sum += value;
  return sum;
}
