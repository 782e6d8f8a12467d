import { byText } from './by-text.ts';
import type { FactNames } from './fact.ts';
import type { Review, Spread, SymptomMinutes } from './figures.ts';
import { studentQuantile } from '../statistics/index.ts';
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
    return { tree, symptom, toFinding: isolated, toProof: proven, expected: null, meanToFinding: null };
  });
  return {
    toFinding: spreadOf(toFinding, null),
    toProof: spreadOf(toProof, null),
    minutes: withMeans(spreads.filter((spread, code) => code > 0 && jobsIn(spread) > 0)).toSorted(
      (a, b) => jobsIn(b) - jobsIn(a) || byText(a.tree, b.tree) || byText(a.symptom, b.symptom),
    ),
  };
}

/** Of what is looked at together, so much is wrong by chance. */
const WRONG = 0.05;

function withMeans(minutes: readonly SymptomMinutes[]): readonly SymptomMinutes[] {
  const together = minutes.filter(({ toFinding }) => typeof toFinding?.error === 'number').length;
  return minutes.map((one) => ({ ...one, meanToFinding: meanOf(one.toFinding, 1 - WRONG / together) }));
}

function meanOf(spread: Spread | null, confidence: number): SymptomMinutes['meanToFinding'] {
  if (spread === null || spread.error === null) return null;
  const { mean, error, jobs } = spread;
  const reach = error === 0 ? 0 : error * studentQuantile(jobs - 1, confidence);
  return { low: mean - reach, high: mean + reach };
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
    error: jobs < 2 ? null : Math.sqrt(times.squares(symptom) / (jobs - 1) / jobs) / MINUTE,
  };
}
