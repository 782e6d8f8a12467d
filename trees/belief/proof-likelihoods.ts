import type { JobState } from '../chart/index.ts';
import { UNLISTED, type Test } from '../document/index.ts';
import { probabilitiesOf } from './belief.ts';
import type { BranchLikelihood } from './branch-likelihoods.ts';
import { evidenceOf, type Observation } from './evidence.ts';
import type { FaultModel } from './fault-model.ts';

/**
 * How likely a test's results are while a remedy is being proved, in document order; null where none is. With b the belief by what
 * led to the remedy of finding f*, and m its fix rate, the unit is mended with b(f*) m and gives what a sound unit does, the first
 * result at the test's reliability g: g + (1 - g)/k, and (1 - g)/k each other. Else it still has what it had, with
 * b(f) P(r|f,t), f* with 1 - m of its own. What was answered since the remedy was done weighs both. Sums to one.
 */
export function proofLikelihoods(
  model: FaultModel,
  job: JobState,
  test: string,
): readonly BranchLikelihood[] | null {
  const remedy = job.remedies.at(-1);
  if (remedy?.state !== 'proving') return null;
  const { tree } = model;
  const led = evidenceOf(tree, { ...job, answers: remedy.evidence });
  const unmended = probabilitiesOf(model, job.symptom, led).probability.slice();
  const row = model.row(remedy.finding);
  // A cause outside the tree has no fix rate of its own.
  const rate = remedy.finding === UNLISTED ? tree.defaults.fixRate : model.fixRate(remedy.finding);
  let mended = (unmended[row] ?? 0) * rate;
  unmended[row] = (unmended[row] ?? 0) * (1 - rate);
  const since = job.answers.filter((answer) => answer.era === job.era && answer.test !== test);
  for (const observation of evidenceOf(tree, { ...job, answers: since }).observations) {
    mended *= weighed(observation, soundShares(model, observation.test));
    for (const [at, held] of unmended.entries())
      unmended[at] = held * weighed(observation, sharesOf(model, observation.test, at));
  }
  return mixed(model, test, mended, unmended);
}

function mixed(
  model: FaultModel,
  test: string,
  mended: number,
  unmended: Float64Array,
): readonly BranchLikelihood[] {
  const { results, jobs } = model.test(test);
  const sound = soundShares(model, test);
  const total = unmended.reduce((sum, held) => sum + held, mended);
  return results.map((result, column) => {
    const still = unmended.reduce(
      (sum, held, row) => sum + held * (sharesOf(model, test, row)[result] ?? 0),
      0,
    );
    const share = mended * (sound[result] ?? 0) + still;
    return { result, probability: share / total, jobs: jobs[column] ?? 0 };
  });
}

type Shares = Readonly<Record<string, number>>;

function weighed({ weights }: Observation, shares: Shares): number {
  return Object.entries(weights).reduce((sum, [result, weight]) => sum + weight * (shares[result] ?? 0), 0);
}

/** P(r|f,t) of one finding, by its row. */
function sharesOf(model: FaultModel, test: string, row: number): Shares {
  const { results, probability } = model.test(test);
  const from = row * results.length;
  return byId(results.map((result, column) => [result, probability[from + column] ?? 0]));
}

/** What a sound unit gives. */
function soundShares({ tree, test: modelOf }: FaultModel, id: string): Shares {
  const { results } = modelOf(id);
  const test: Test | undefined = tree.tests[id];
  const reliability = test?.reliability ?? tree.defaults.reliability;
  const other = (1 - reliability) / results.length;
  return byId(results.map((result, column) => [result, column === 0 ? reliability + other : other]));
}

function byId(entries: readonly (readonly [string, number])[]): Shares {
  return Object.assign(Object.create(null) as Record<string, number>, Object.fromEntries(entries));
}
