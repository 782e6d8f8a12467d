import { own, type Step, type Tree } from '../../../trees/document/index.ts';
import type { BranchShares } from './authored-shares.ts';
import type { DrawnResult, DrawnStep } from './graph.ts';
import type { NumberedStep } from './numbered-steps.ts';
import { branchAt, stepAt } from './places.ts';

const made = new WeakMap<Step, { readonly from: readonly unknown[]; readonly drawn: DrawnStep }>();
const NO_STEP: Step = { test: '', then: {} };

/**
 * A step of a path as it is drawn. As long as nothing that it is made of changes, the same one is given again, so that an edit
 * costs its own part.
 */
export function drawnStepOf(
  tree: Tree,
  symptom: string,
  numbered: NumberedStep,
  shares: BranchShares,
): DrawnStep {
  const step = own(own(tree.symptoms, symptom)?.steps ?? {}, numbered.step) ?? NO_STEP;
  const test = own(tree.tests, step.test);
  const passing = Object.keys(step.then).map((result) => shares.get(numbered.step)?.get(result) ?? 0);
  const from = [symptom, numbered.step, numbered.number, numbered.reached, test, tree.bench, ...passing];
  const known = made.get(step);
  if (known?.from.length === from.length && known.from.every((part, index) => part === from[index]))
    return known.drawn;
  const drawn = drawnStep(tree, symptom, numbered, step, shares.get(numbered.step));
  made.set(step, { from, drawn });
  return drawn;
}

function drawnStep(
  tree: Tree,
  symptom: string,
  { step, number, reached }: NumberedStep,
  { test: id, then }: Step,
  shares: ReadonlyMap<string, number> | undefined,
): DrawnStep {
  const test = own(tree.tests, id);
  const given = Object.keys(test?.results ?? {});
  const others = Object.keys(then).filter((result) => !given.includes(result));
  const results = [...given, ...others].map((result, place): DrawnResult => {
    const go = own(then, result)?.go;
    return {
      at: branchAt(symptom, step, result),
      result,
      title: own(test?.results ?? {}, result)?.title ?? result,
      ...(go === undefined ? {} : { go }),
      share: go === undefined ? 0 : (shares?.get(result) ?? 0),
      given: place < given.length,
    };
  });
  const needs = Object.entries(test?.needs ?? {});
  return {
    kind: 'step',
    id: stepAt(symptom, step),
    at: stepAt(symptom, step),
    step,
    number,
    test: id,
    title: test?.title ?? id,
    ...(test === undefined ? {} : { instrument: test.instrument }),
    minutes: test?.minutes ?? 0,
    needs: needs.map(([axis, state]) => stateTitle(tree, axis, state)),
    reached,
    share: results.reduce((sum, { share }) => sum + share, 0),
    results,
  };
}

function stateTitle(tree: Tree, axis: string, state: string): string {
  return own(own(tree.bench, axis)?.states ?? {}, state)?.title ?? state;
}
