import { courseOf, type Tree } from '../document/index.ts';
import type { Way } from './fact.ts';
import type { Slice } from './figures.ts';

/** A branch that is gone along: the step's number in the tree's course and the branch's place there. */
export type Gone = (step: number, branch: number) => void;

/**
 * Walks a way down the current paths of its tree: each step whose test it has an answer to, up to the first that it has none
 * to, a finding, or where no branch has that result. What is once walked is remembered for as long as there are tree and way.
 */
export function walkWay(tree: Tree, way: Way, gone: Gone): void {
  const walks = walked.get(tree) ?? new WeakMap<Way, Int32Array>();
  walked.set(tree, walks);
  const walk = walks.get(way) ?? walkOf(tree, way);
  walks.set(way, walk);
  for (let at = 0; at < walk.length; at += 2) gone(walk[at] ?? 0, walk[at + 1] ?? 0);
}

// Every filter asks for the same ways down the same trees.
const walked = new WeakMap<Tree, WeakMap<Way, Int32Array>>();

/** Step and branch in turn. */
function walkOf(tree: Tree, way: Way): Int32Array {
  const { firsts, steps } = courseOf(tree);
  const walk: number[] = [];
  let at = firsts.get(way.symptom);
  // A path of a checked tree has no loop; a way cannot be longer than all steps.
  while (at !== undefined && walk.length < 2 * steps.length) {
    const step = steps[at];
    const answer = way.answers.find(({ test }) => test === step?.test);
    const place = step?.branches.findIndex(({ result }) => result === answer?.result) ?? -1;
    const lead = step?.branches[place]?.lead;
    if (lead === undefined) break;
    walk.push(at, place);
    at = lead.kind === 'step' ? lead.index : undefined;
  }
  return Int32Array.from(walk);
}

/** By a way's code, 1 where it goes along a branch; for the jobs of such a slice. */
export function waysBy(
  tree: Tree,
  ways: readonly (Way | undefined)[],
  branch: Extract<Slice, { readonly kind: 'branch' }>,
): Uint8Array {
  const { steps } = courseOf(tree);
  const isBy = new Uint8Array(ways.length);
  ways.forEach((way, code) => {
    if (way?.tree !== tree.id) return;
    walkWay(tree, way, (at, place) => {
      const step = steps[at];
      const isStep = step?.symptom === branch.symptom && step.step === branch.step;
      if (isStep && step.branches[place]?.result === branch.result) isBy[code] = 1;
    });
  });
  return isBy;
}
