import { compileFaultModel, NO_HISTORY, type FaultModel } from '../../../trees/belief/index.ts';
import type { JobEvent } from '../../../trees/chart/index.ts';
import type { Tree } from '../../../trees/document/index.ts';
import { planFast } from '../../../trees/plan/index.ts';
import type { Spot } from './spots.ts';

/** What the planner would do at a spot, as an event; null where it says nothing else than the tree or was not asked. */
export type Adviser = (spot: Spot) => JobEvent | null;

/**
 * The real planner's first act, asked once for each situation with the readings of the first job in it, by the author's
 * expectations without history, parts not counted. A plan takes a while, and so it is asked about `most` situations only.
 */
export function openAdviser(most: number): Adviser {
  const models = new Map<Tree, FaultModel>();
  const known = new Map<Tree, Map<string, JobEvent | null>>();
  let asked = 0;
  return (spot) => {
    const { tree } = spot;
    const ofTree = known.get(tree) ?? new Map<string, JobEvent | null>();
    known.set(tree, ofTree);
    const situation = situationOf(spot);
    const told = ofTree.get(situation);
    if (told !== undefined) return told;
    if (asked >= most) return null;
    asked += 1;
    const model = models.get(tree) ?? compileFaultModel(tree, NO_HISTORY);
    models.set(tree, model);
    const advice = adviceAt(model, spot);
    ofTree.set(situation, advice);
    return advice;
  };
}

function adviceAt(model: FaultModel, { at: { job, bench }, act }: Spot): JobEvent | null {
  const [first] = planFast({ model, goal: 'fix', job, bench, rate: null }).actions;
  if (first === undefined || first.kind === 'pass-on') return null;
  if (first.kind === 'remedy') return { kind: 'start-remedy', finding: first.id, advised: true };
  return act.kind === 'test' && act.test === first.id
    ? null
    : { kind: 'turn-to', test: first.id, advised: true };
}

function situationOf({ at: { job, bench } }: Spot): string {
  const results = job.answers.map(({ test, result, era }) => `${test} ${result} ${String(era)}`).sort();
  const skips = job.skips.map(({ test }) => test).sort();
  const tried = job.remedies.map(({ finding, state }) => `${finding} ${state}`);
  return JSON.stringify([job.symptom, results, skips, tried, bench]);
}
