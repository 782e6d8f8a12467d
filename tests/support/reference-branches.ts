import type { FaultModel } from '../../trees/belief/index.ts';
import { destination, type Tree } from '../../trees/document/index.ts';

/** A step as one way comes to it. */
export interface Coming {
  /** The symptom that the way begins with, and the step's own. */
  readonly from: string;
  readonly symptom: string;
  readonly step: string;
  /** Results by test so far. */
  readonly given: ReadonlyMap<string, string>;
}

/** Every way to every step of a tree's paths, one by one; null where there are more than `most`. */
export function waysToSteps(tree: Tree, most: number): readonly Coming[] | null {
  const found: Coming[] = [];
  const waiting: Coming[] = Object.entries(tree.symptoms).flatMap(([symptom, { first }]) =>
    first === undefined ? [] : [{ from: symptom, symptom, step: first, given: new Map() }],
  );
  for (let at = waiting.pop(); at !== undefined; at = waiting.pop()) {
    if (found.push(at) > most) return null;
    const step = tree.symptoms[at.symptom]?.steps[at.step];
    for (const [result, { go }] of Object.entries(step?.then ?? {})) {
      const standing = at.given.get(step?.test ?? '');
      const to = destination(go, at.symptom);
      if (to.kind === 'finding' || (standing !== undefined && standing !== result)) continue;
      const next = to.kind === 'step' ? to.step : tree.symptoms[to.symptom]?.first;
      if (next === undefined) continue;
      const given = new Map([...at.given, [step?.test ?? '', result]]);
      waiting.push({ from: at.from, symptom: to.symptom, step: next, given });
    }
  }
  return found;
}

/** How likely a result is at a step, over all ways that come to it: each way's joint P(f, results), finding by finding. */
export function likelihoodOver(
  model: FaultModel,
  ways: readonly Coming[],
  test: string,
  result: string,
): number {
  let [all, leaving] = [0, 0];
  for (const { from, given } of ways) {
    const { probability, jobs } = model.prior(from);
    const units = 1 + jobs.reduce((sum, count) => sum + count, 0);
    model.findings.forEach((_, row) => {
      let joint = units * (probability[row] ?? 0);
      for (const [made, gave] of given) joint *= chance(model, made, gave, row);
      all += joint;
      const standing = given.get(test);
      leaving +=
        joint * (standing === undefined ? chance(model, test, result, row) : Number(standing === result));
    });
  }
  return all > 0 ? leaving / all : 1 / model.test(test).results.length;
}

function chance(model: FaultModel, test: string, result: string, row: number): number {
  const { results, probability } = model.test(test);
  return probability[row * results.length + results.indexOf(result)] ?? 0;
}
