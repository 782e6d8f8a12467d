import { own, type Tree } from '../../../../trees/document/index.ts';
import { goWords, titled } from '../../desk/part-words.ts';
import { pointerOfGo } from '../words/uses.ts';

/** A way out of a step: by a result of its test, or left over from a test it made before. */
export interface BranchLine {
  readonly result: string;
  readonly title: string;
  /** Whether the step’s test gives the result at all. */
  readonly given: boolean;
  /** Where it leads, and the pointer of that place; null where it leads to nothing yet. */
  readonly lead: { readonly at: string; readonly words: string } | null;
  /** Share of the step’s units that leave by it, 0..1. */
  readonly share: number;
}

/** A step’s ways out in the order of its test’s results, then those of results the test does not give. */
export function branchesOf(tree: Tree, symptom: string, id: string): readonly BranchLine[] {
  const step = own(own(tree.symptoms, symptom)?.steps ?? {}, id);
  if (step === undefined) return [];
  const results = own(tree.tests, step.test)?.results ?? {};
  const extra = Object.keys(step.then).filter((result) => own(results, result) === undefined);
  const total = Object.values(step.then).reduce((sum, { weight }) => sum + weight, 0);
  return [...Object.keys(results), ...extra].map((result) => {
    const branch = own(step.then, result);
    const given = own(results, result);
    return {
      result,
      title: given === undefined ? result : titled(given.title),
      given: given !== undefined,
      lead:
        branch === undefined
          ? null
          : { at: pointerOfGo(branch.go, symptom), words: goWords(tree, symptom, branch.go) },
      share: branch === undefined || total === 0 ? 0 : branch.weight / total,
    };
  });
}

/** How many of a step’s branches go when it makes another test, which does not give their results. */
export function lostBy(tree: Tree, symptom: string, step: string, test: string): number {
  const then = own(own(tree.symptoms, symptom)?.steps ?? {}, step)?.then ?? {};
  const results = own(tree.tests, test)?.results ?? {};
  return Object.keys(then).filter((result) => own(results, result) === undefined).length;
}
