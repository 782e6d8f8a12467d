import { byText } from './by-text.ts';
import type { FactNames } from './fact.ts';
import type { Review, Spread, SymptomMinutes } from './figures.ts';
import { MINUTE } from './minute.ts';
import type { Times } from './times.ts';

/** Mean, median and quartiles of the time to the finding and to the proven repair, of all jobs and by symptom; most jobs first. */
export function spreadsOf(
  toFinding: Times,
  toProof: Times,
  { symptoms }: FactNames,
): Pick<Review, 'toFinding' | 'toProof' | 'minutes'> {
  const spreads = symptoms.map(({ tree, symptom }, code): SymptomMinutes => {
    const [isolated, proven] = [spreadOf(toFinding, code), spreadOf(toProof, code)];
    return { tree, symptom, toFinding: isolated, toProof: proven, expected: null };
  });
  return {
    toFinding: spreadOf(toFinding, null),
    toProof: spreadOf(toProof, null),
    minutes: spreads
      .filter((spread, code) => code > 0 && jobsIn(spread) > 0)
      .sort((a, b) => jobsIn(b) - jobsIn(a) || byText(a.tree, b.tree) || byText(a.symptom, b.symptom)),
  };
}

function jobsIn({ toFinding, toProof }: SymptomMinutes): number {
  return Math.max(toFinding?.jobs ?? 0, toProof?.jobs ?? 0);
}

function spreadOf(times: Times, symptom: number | null): Spread | null {
  const quartiles = times.quartiles(symptom);
  if (quartiles === null) return null;
  const [lower = 0, median = 0, upper = 0] = quartiles;
  const jobs = times.jobs(symptom);
  return {
    jobs,
    mean: times.sum(symptom) / jobs / MINUTE,
    lower: lower / MINUTE,
    median: median / MINUTE,
    upper: upper / MINUTE,
  };
}
