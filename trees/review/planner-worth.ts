import { sampleOf, stratifiedDifference, type Stratum } from '../statistics/index.ts';
import type { Chosen } from './choose.ts';
import { NO_TIME, type FactNames } from './fact.ts';
import type { Estimate, PlannerWorth } from './figures.ts';
import { groupValues, type GroupedValues } from './group-values.ts';

const MINUTE = 60_000;
/** A kind of job says something only with as many jobs of both sorts. Our own choice: a variance of fewer is no better than a guess. */
export const ENOUGH_OF_BOTH = 5;

/**
 * What the planner's advice is worth: by kind of job (tree, symptom, finding) the difference of the mean time to the finding
 * without and with advice taken, summed over the jobs where it was taken (saved) and over those where it was not.
 */
export function plannerWorth(chosen: Chosen): PlannerWorth {
  const kinds = kindsOf(chosen.names);
  const { taken, notTaken, times } = timesByKind(chosen, kinds);
  const strata: Stratum[] = [];
  for (let kind = 0; kind < kinds.count; kind += 1) {
    const [other, followed] = [times.of(2 * kind), times.of(2 * kind + 1)];
    if (Math.min(other.length, followed.length) < ENOUGH_OF_BOTH) continue;
    const [done, notDone] = [sampleOf(followed), sampleOf(other)];
    if (done !== null && notDone !== null) strata.push({ done, notDone });
  }
  return {
    taken,
    notTaken,
    kinds: strata.length,
    saved: inMinutes(stratifiedDifference(strata, 'done')),
    wouldSave: inMinutes(stratifiedDifference(strata, 'notDone')),
  };
}

/** Numbers for the kinds of job: a symptom's first, and a finding's place in its tree. */
interface Kinds {
  readonly count: number;
  readonly first: Uint32Array;
  readonly place: Uint32Array;
}

function kindsOf({ symptoms, findings }: FactNames): Kinds {
  const inTree = new Map<string, number>();
  const place = Uint32Array.from(findings, ({ tree }, code) => {
    if (code === 0) return 0;
    const next = inTree.get(tree) ?? 0;
    inTree.set(tree, next + 1);
    return next;
  });
  let count = 0;
  const first = Uint32Array.from(symptoms, ({ tree }, code) => {
    if (code === 0) return 0;
    const start = count;
    count += inTree.get(tree) ?? 0;
    return start;
  });
  return { count, first, place };
}

/** Counts confirmed jobs with and without advice taken, and lays their times together: of kind k without at 2k, with at 2k + 1. */
function timesByKind({ blocks, jobs }: Chosen, kinds: Kinds) {
  const values = new Uint32Array(jobs);
  const group = new Uint32Array(jobs);
  let count = 0;
  let taken = 0;
  let confirmed = 0;
  for (const { columns, rows } of blocks) {
    const { finding, symptom, advised, toFinding } = columns;
    for (let at = 0; at < rows.length; at += 1) {
      const row = rows[at] ?? 0;
      const code = finding[row] ?? 0;
      if (code === 0) continue;
      const followed = Number((advised[row] ?? 0) > 0);
      confirmed += 1;
      taken += followed;
      const time = toFinding[row] ?? NO_TIME;
      if (time === NO_TIME) continue;
      values[count] = time;
      group[count] = 2 * ((kinds.first[symptom[row] ?? 0] ?? 0) + (kinds.place[code] ?? 0)) + followed;
      count += 1;
    }
  }
  const times: GroupedValues = groupValues(values, group, count, 2 * kinds.count);
  return { taken, notTaken: confirmed - taken, times };
}

function inMinutes(estimate: ReturnType<typeof stratifiedDifference>): Estimate | null {
  if (estimate === null) return null;
  const { count, total, low, high } = estimate;
  return { jobs: count, minutes: total / MINUTE, low: low / MINUTE, high: high / MINUTE };
}
