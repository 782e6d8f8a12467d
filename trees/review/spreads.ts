import { quantiles } from '../statistics/index.ts';
import type { Chosen } from './choose.ts';
import { NO_TIME } from './fact.ts';
import type { Review, Spread, SymptomMinutes } from './figures.ts';
import { groupValues, type GroupedValues } from './group-values.ts';
import { byText } from './groups.ts';

const MINUTE = 60_000;

/** Median and quartiles of the time to the finding and to the proven repair, of all jobs and by symptom. */
export function spreadsOf(chosen: Chosen): Pick<Review, 'toFinding' | 'toProof' | 'minutes'> {
  const toFinding = timesBySymptom(chosen, 'toFinding');
  const toProof = timesBySymptom(chosen, 'toProof');
  const minutes = chosen.names.symptoms
    .flatMap((name, code): SymptomMinutes[] => {
      const both = { toFinding: spreadOf(toFinding.of(code)), toProof: spreadOf(toProof.of(code)) };
      return code === 0 || (both.toFinding === null && both.toProof === null)
        ? []
        : [{ tree: name.tree, symptom: name.symptom, ...both, expected: null }];
    })
    .sort((a, b) => jobsIn(b) - jobsIn(a) || byText(a.tree, b.tree) || byText(a.symptom, b.symptom));
  return { toFinding: spreadOf(toFinding.values), toProof: spreadOf(toProof.values), minutes };
}

function jobsIn({ toFinding, toProof }: SymptomMinutes): number {
  return Math.max(toFinding?.jobs ?? 0, toProof?.jobs ?? 0);
}

function timesBySymptom({ blocks, jobs, names }: Chosen, column: 'toFinding' | 'toProof'): GroupedValues {
  const values = new Uint32Array(jobs);
  const group = new Uint32Array(jobs);
  let count = 0;
  for (const { columns, rows } of blocks) {
    const times = columns[column];
    const { symptom } = columns;
    for (let at = 0; at < rows.length; at += 1) {
      const row = rows[at] ?? 0;
      const time = times[row] ?? NO_TIME;
      if (time === NO_TIME) continue;
      values[count] = time;
      group[count] = symptom[row] ?? 0;
      count += 1;
    }
  }
  return groupValues(values, group, count, names.symptoms.length);
}

function spreadOf(times: Uint32Array): Spread | null {
  const [lower = 0, median = 0, upper = 0] = quantiles(times, [0.25, 0.5, 0.75]) ?? [];
  if (times.length === 0) return null;
  return { jobs: times.length, lower: lower / MINUTE, median: median / MINUTE, upper: upper / MINUTE };
}
