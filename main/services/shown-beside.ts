import { beliefOf, compileFaultModel, evidenceOf, type FaultModel } from '../../trees/belief/index.ts';
import type { JobState } from '../../trees/chart/index.ts';
import { flowsOfFew, type Tree } from '../../trees/document/index.ts';
import { SHOWN, type ShownFinding } from '../../trees/review/index.ts';
import type { Records } from '../records/index.ts';

/**
 * What the bench shows beside the likely findings of a job that stands so: the likeliest few as whole percents, reckoned here
 * and not taken from the app. Of the history only what bears on the job is read, so that no model need be kept.
 */
export function shownBeside(records: Records, tree: Tree, job: JobState): readonly ShownFinding[] {
  const tests = new Set(job.answers.map(({ test }) => test));
  const history = records.historyAbout(tree.id, job.symptom, [...tests]);
  return likeliestBeside(compileFaultModel(tree, history, flowsOfFew(tree)), job);
}

/** The same by a fault model whose history has all that bears on the job. */
export function likeliestBeside(model: FaultModel, job: JobState): readonly ShownFinding[] {
  const { findings } = beliefOf(model, job.symptom, evidenceOf(model.tree, job));
  return findings
    .slice(0, SHOWN)
    .map(({ finding, probability }) => [finding, Math.round(100 * probability)] as const);
}
