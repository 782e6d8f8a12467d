import { readingWeights, type FaultModel } from '../../trees/belief/index.ts';
import type { JobState } from '../../trees/chart/index.ts';
import { UNLISTED } from '../../trees/document/index.ts';
import type { ReferenceQuestion, State } from './reference-plan-state.ts';

/** The probability of each finding, `unlisted` among them. */
export type Belief = ReadonlyMap<string, number>;

/** P(f|evidence), DESIGN section 4, in logarithms so that no number of unlikely results is lost; worked out once a state. */
export function beliefIn(question: ReferenceQuestion, state: State): Belief {
  const known = beliefs.get(state) ?? workedOut(question, state);
  beliefs.set(state, known);
  return known;
}

const beliefs = new WeakMap<State, Belief>();

function workedOut({ model, job }: ReferenceQuestion, state: State): Belief {
  const prior = model.prior(job.symptom).probability;
  const scores = model.findings.map((finding, row) => {
    let score = Math.log(prior[row] ?? 0);
    for (const test of state.results.keys()) score += Math.log(likelihood(model, job, state, test, finding));
    return score + (state.tried.has(finding) ? Math.log(1 - model.fixRate(finding)) : 0);
  });
  const largest = Math.max(...scores);
  const shares = scores.map((score) => (largest === -Infinity ? 0 : Math.exp(score - largest)));
  const sum = shares.reduce((a, b) => a + b, 0);
  return new Map(
    model.findings.map((finding, row) => {
      const impossible = finding === UNLISTED ? 1 : 0;
      return [finding, largest === -Infinity ? impossible : (shares[row] ?? 0) / sum];
    }),
  );
}

/** The sum over a test's results of w(r) P(r|f,t); w is 1 for a result that was chosen or is planned with. */
function likelihood(model: FaultModel, job: JobState, state: State, test: string, finding: string): number {
  const result = state.results.get(test) ?? '';
  const answer = state.given.has(test) ? job.answers.find((one) => one.test === test) : undefined;
  const made = model.tree.tests[test];
  if (answer?.reading === undefined || made === undefined) return chance(model, test, finding, result);
  const weighed = readingWeights(made, answer.reading, answer.reference);
  if (!weighed.ok) throw new Error(weighed.message);
  return Object.entries(weighed.weights).reduce(
    (sum, [each, weight]) => sum + weight * chance(model, test, finding, each),
    0,
  );
}

/** P(r|f,t). */
export function chance(model: FaultModel, test: string, finding: string, result: string): number {
  const { results, probability } = model.test(test);
  return probability[model.row(finding) * results.length + results.indexOf(result)] ?? Number.NaN;
}

/** P(r|evidence). */
export function chanceOf(model: FaultModel, belief: Belief, test: string, result: string): number {
  let sum = 0;
  for (const [finding, probability] of belief) sum += probability * chance(model, test, finding, result);
  return sum;
}
