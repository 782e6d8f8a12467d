import { openCalibration } from './calibration.ts';
import { choose, type Chosen } from './choose.ts';
import { openComebackDays } from './comeback-days.ts';
import { comebacksOf } from './comebacks.ts';
import type { Facts, ReviewFilter } from './fact.ts';
import type { Review } from './figures.ts';
import { openGroups } from './groups.ts';
import { openKindSamples } from './kind-samples.ts';
import { kindsOf, type Kinds } from './kinds.ts';
import { openMixChange } from './mix-change.ts';
import { openMonths } from './months.ts';
import { openOutcomes } from './outcomes.ts';
import { openPareto } from './pareto.ts';
import { openAdvised, worthOf } from './planner-worth.ts';
import { recordOf } from './record.ts';
import { spreadsOf } from './spreads.ts';
import { openTimes } from './times.ts';
import { openTriedFirst } from './tried-first.ts';
import { openWaysTaken } from './ways-taken.ts';

/** The figures that need no tree, and what those that do are made of. */
export interface FactReview {
  /** `expected` of all `minutes` is null. */
  readonly figures: Omit<Review, 'branches'>;
  /** By the code of a way, how many confirmed jobs went it. */
  readonly wayCounts: Uint32Array;
}

/**
 * All figures of a filter that need no tree, as they are known at `now` (milliseconds since 1970 UTC); `withTrees` adds the
 * rest. Rows x figures, and no object a row: every block is gone through once to see which of its jobs are asked for, and once
 * for all tallies while it is at hand; only the lengths of time are gone through once more. The order of the blocks does not matter.
 */
export function reviewOf(facts: Facts, filter: ReviewFilter, now: number): FactReview {
  const chosen = choose(facts, filter, now);
  const kinds = kindsOf(facts.names);
  const { toFinding, toProof, samples, advised, wayCounts, ...figures } = countedOf(
    chosen,
    kinds,
    facts.ways.length,
  );
  return {
    figures: {
      asOf: now,
      record: recordOf(facts),
      jobs: chosen.jobs,
      ...figures,
      ...spreadsOf(toFinding, toProof, facts.names),
      planner: { ...advised, ...worthOf(samples, kinds) },
    },
    wayCounts,
  };
}

function countedOf(chosen: Chosen, kinds: Kinds, ways: number) {
  const groups = openGroups(chosen);
  const months = openMonths(chosen);
  const free = openComebackDays(chosen);
  const outcomes = openOutcomes(chosen);
  const pareto = openPareto(chosen);
  const calibration = openCalibration();
  const triedFirst = openTriedFirst(chosen);
  const change = openMixChange(chosen);
  const advised = openAdvised();
  const taken = openWaysTaken(ways);
  const toFinding = openTimes(chosen, 'toFinding');
  const toProof = openTimes(chosen, 'toProof');
  const samples = openKindSamples(chosen, kinds);
  const tallies = [
    groups,
    months,
    free,
    outcomes,
    pareto,
    calibration,
    triedFirst,
    change,
    advised,
    taken,
    toFinding,
    toProof,
    samples,
  ];
  for (const block of chosen.blocks) for (const tally of tallies) tally.add(block);
  return {
    ...groups.result(),
    ...months.result(),
    ...comebacksOf(free.result(), chosen),
    outcomes: outcomes.result(),
    pareto: pareto.result(),
    calibration: calibration.result(),
    triedFirst: triedFirst.result(),
    change: change.result(),
    advised: advised.result(),
    toFinding: toFinding.result(),
    toProof: toProof.result(),
    samples: samples.result(),
    wayCounts: taken.result(),
  };
}
