import { compileFaultModel, NO_HISTORY, type FaultModel } from '../../../trees/belief/index.ts';
import type { JobEvent } from '../../../trees/chart/index.ts';
import type { Tree } from '../../../trees/document/index.ts';
import { planFast } from '../../../trees/plan/index.ts';
import type { Stand } from './stands.ts';

/** What the planner would do where a job stands, as an event; null where it says little else than the tree or was not asked. */
export type Adviser = (tree: Tree, stand: Stand) => JobEvent | null;

/**
 * The real planner's first act where it is worth leaving the path for, asked once for each situation with the readings of the first job in it, by the author's
 * expectations without history, parts not counted. A plan takes a while, and so it is asked about `most` situations only.
 */
export function openAdviser(most: number): Adviser {
  const models = new Map<Tree, FaultModel>();
  const known = new Map<Tree, Map<string, JobEvent | null>>();
  let asked = 0;
  return (tree, stand) => {
    const ofTree = known.get(tree) ?? new Map<string, JobEvent | null>();
    known.set(tree, ofTree);
    const situation = situationOf(stand);
    const told = ofTree.get(situation);
    if (told !== undefined) return told;
    if (asked >= most) return null;
    asked += 1;
    const model = models.get(tree) ?? compileFaultModel(tree, NO_HISTORY);
    models.set(tree, model);
    const advice = adviceAt(model, stand);
    ofTree.set(situation, advice);
    return advice;
  };
}

/** Minutes that the planner must promise over the tree's own act for a busy technician to follow it. Invented. */
const WORTH_IT = 4;

function adviceAt(model: FaultModel, { job, bench, act }: Stand): JobEvent | null {
  if (act.kind !== 'test') return null;
  const { actions } = planFast({ model, goal: 'fix', job, bench, rate: null });
  const [first] = actions;
  const ofTree = actions.find(({ kind, id }) => kind === 'test' && id === act.test);
  if (first === undefined || ofTree === undefined || first.kind === 'pass-on') return null;
  if (ofTree.expectedTotal - first.expectedTotal < WORTH_IT) return null;
  return first.kind === 'remedy'
    ? { kind: 'start-remedy', finding: first.id, advised: true }
    : { kind: 'turn-to', test: first.id, advised: true };
}

function situationOf({ job, bench }: Stand): string {
  const results = job.answers.map(({ test, result, era }) => `${test} ${result} ${String(era)}`).sort();
  const skips = job.skips.map(({ test }) => test).sort();
  const tried = job.remedies.map(({ finding, state }) => `${finding} ${state}`);
  return JSON.stringify([job.symptom, results, skips, tried, bench]);
}
