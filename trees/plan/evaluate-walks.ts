import { courseOf, referenceOf, type Finding, type Test, type Tree } from '../document/index.ts';
import { layoutOf, type Layout } from './evaluate-layout.ts';
import { waysOf, type Ways } from './evaluate-ways.ts';
import { areAlike, everyAlike } from './same-cost.ts';

/** The paths of a tree for one symptom, laid out for walking them. */
export interface Walks {
  readonly layout: Layout;
  /** The same by identity for trees whose jobs are walked alike, so that more can be kept with it. */
  readonly ways: Ways;
}

interface Kept extends Walks {
  readonly tree: Tree;
}

/** By a course's order, which stands for where the paths lead, and symptom. */
const kept = new WeakMap<readonly number[], Map<string, Kept>>();

/**
 * Lays out a tree's paths for a symptom; what a tree laid out before, of which an edit has made this one, was walked by is kept where
 * the edit changes nothing that a job's way goes by, as with weights, minutes of tests, and texts.
 */
export function walksOf(tree: Tree, symptom: string): Walks {
  const { order } = courseOf(tree);
  const bySymptom = kept.get(order) ?? new Map<string, Kept>();
  kept.set(order, bySymptom);
  const known = bySymptom.get(symptom);
  const walks = known !== undefined && walkTheSame(known.tree, tree) ? known : laidOut(tree, symptom);
  // With the parts as they are now, the next question is answered by their identity.
  bySymptom.set(symptom, { ...walks, tree });
  return { layout: { ...walks.layout, tree }, ways: walks.ways };
}

function laidOut(tree: Tree, symptom: string): Walks {
  const layout = layoutOf(tree, symptom);
  return { layout, ways: waysOf(layout, symptom) };
}

/** Whether jobs are walked alike in two trees whose paths lead to the same. */
function walkTheSame(one: Tree, other: Tree): boolean {
  return (
    areAlike(one.bench, other.bench, (bench) => bench) &&
    areAlike(one.interlocks, other.interlocks, (interlocks) => interlocks) &&
    everyAlike(one.tests, other.tests, testWalked) &&
    everyAlike(one.findings, other.findings, findingWalked)
  );
}

function testWalked(test: Test): unknown {
  return [Object.keys(test.results), test.needs, referenceOf(test)];
}

function findingWalked({ remedy: { needs, disturbs }, prove, otherwise }: Finding): unknown {
  return [needs, disturbs, prove, otherwise];
}
