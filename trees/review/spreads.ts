import { quantiles } from '../statistics/index.ts';
import { byText } from './by-text.ts';
import type { FactNames } from './fact.ts';
import type { Review, Spread, SymptomMinutes } from './figures.ts';
import type { Kinds } from './kinds.ts';
import { MINUTE } from './minute.ts';
import type { TimesByKind } from './times.ts';

/** Mean, median and quartiles of the time to the finding and to the proven repair, of all jobs and by symptom; most jobs first. */
export function spreadsOf(
  { toFinding, toProof }: TimesByKind,
  kinds: Kinds,
  { symptoms }: FactNames,
): Pick<Review, 'toFinding' | 'toProof' | 'minutes'> {
  const spreads = symptoms.map(({ tree, symptom }, code): SymptomMinutes => {
    const [from = 0, to = 0] = kinds.first.subarray(code, code + 2);
    const [isolated, proven] = [spreadOf(toFinding(from, to)), spreadOf(toProof(from, to))];
    return { tree, symptom, toFinding: isolated, toProof: proven, expected: null };
  });
  return {
    toFinding: spreadOf(toFinding(0, kinds.count)),
    toProof: spreadOf(toProof(0, kinds.count)),
    minutes: spreads
      .filter((spread, code) => code > 0 && jobsIn(spread) > 0)
      .sort((a, b) => jobsIn(b) - jobsIn(a) || byText(a.tree, b.tree) || byText(a.symptom, b.symptom)),
  };
}

function jobsIn({ toFinding, toProof }: SymptomMinutes): number {
  return Math.max(toFinding?.jobs ?? 0, toProof?.jobs ?? 0);
}

function spreadOf(times: Uint32Array): Spread | null {
  const quartiles = quantiles(times, [0.25, 0.5, 0.75]);
  if (quartiles === null) return null;
  const [lower = 0, median = 0, upper = 0] = quartiles;
  return {
    jobs: times.length,
    mean: meanOf(times) / MINUTE,
    lower: lower / MINUTE,
    median: median / MINUTE,
    upper: upper / MINUTE,
  };
}

function meanOf(times: Uint32Array): number {
  let sum = 0;
  for (let at = 0; at < times.length; at += 1) sum += times[at] ?? 0;
  return sum / times.length;
}
