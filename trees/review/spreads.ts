import { quantiles } from '../statistics/index.ts';
import { byText } from './by-text.ts';
import type { Chosen, ChosenBlock } from './choose.ts';
import type { Review, Spread, SymptomMinutes } from './figures.ts';
import { groupTimes, type GroupedTimes } from './grouped-times.ts';
import type { Kinds } from './kinds.ts';
import { MINUTE } from './minute.ts';

/** Median and quartiles of the time to the finding and to the proven repair, of all jobs and by symptom; most jobs first. */
export function spreadsOf(
  { blocks, names }: Chosen,
  toFinding: GroupedTimes,
  kinds: Kinds,
): Pick<Review, 'toFinding' | 'toProof' | 'minutes'> {
  const codes = names.symptoms.length;
  const toProof = groupTimes(blocks, 'toProof', putSymptoms, codes);
  const spreads = names.symptoms.map(({ tree, symptom }, code): SymptomMinutes => {
    const [from, to] = [kinds.first[code] ?? 0, kinds.first[code + 1] ?? 0];
    return {
      tree,
      symptom,
      toFinding: code === 0 ? null : spreadOf(toFinding.of(2 * from, 2 * to)),
      toProof: code === 0 ? null : spreadOf(toProof.of(code, code + 1)),
      expected: null,
    };
  });
  return {
    toFinding: spreadOf(toFinding.of(0, 2 * kinds.count)),
    toProof: spreadOf(toProof.of(0, codes)),
    minutes: spreads
      .filter((spread) => jobsIn(spread) > 0)
      .sort((a, b) => jobsIn(b) - jobsIn(a) || byText(a.tree, b.tree) || byText(a.symptom, b.symptom)),
  };
}

function putSymptoms({ columns, rows }: ChosenBlock, groups: Uint32Array): void {
  const { symptom } = columns;
  for (let at = 0; at < rows.length; at += 1) groups[at] = symptom[rows[at] ?? 0] ?? 0;
}

function jobsIn({ toFinding, toProof }: SymptomMinutes): number {
  return Math.max(toFinding?.jobs ?? 0, toProof?.jobs ?? 0);
}

function spreadOf(times: Uint32Array): Spread | null {
  const quartiles = quantiles(times, [0.25, 0.5, 0.75]);
  if (quartiles === null) return null;
  const [lower = 0, median = 0, upper = 0] = quartiles;
  return { jobs: times.length, lower: lower / MINUTE, median: median / MINUTE, upper: upper / MINUTE };
}
