import { checkBands } from './check-bands.ts';
import { checkBench } from './check-bench.ts';
import { warnOfCautions } from './check-cautions.ts';
import { checkCourse } from './check-course.ts';
import { warnOfExpectations } from './check-expectations.ts';
import { checkInterlocks, warnOfInterlocks } from './check-interlocks.ts';
import { checkReferences } from './check-references.ts';
import { warnOfProofs } from './check-proofs.ts';
import { warnOfRepeats } from './check-repeats.ts';
import { warnOfUnits } from './check-units.ts';
import { reachOfTree, warnOfUse } from './check-use.ts';
import { checkWeights } from './check-weights.ts';
import { courseOf, type Course } from './course.ts';
import { openMemory, type Recall } from './memory.ts';
import { openNames, type Names } from './names.ts';
import { errorAt, firstProblems, type Problem } from './problem.ts';
import { readDocument } from './read-tree.ts';
import { otherwiseOf, type Otherwise } from './reach.ts';
import type { Remains } from './set-aside.ts';
import type { Tree } from './tree.ts';

/**
 * Everything wrong with what a tree of the right shape says, errors first: an error keeps the tree from being walked,
 * a warning is very likely not meant. Warnings that follow from the paths as a whole (what nothing reaches, what
 * nothing tells apart) wait until there are no errors, of which they would only be echoes.
 */
export function checkTree(tree: Tree): readonly Problem[] {
  return openChecker()(tree);
}

/**
 * A checker that says of one tree after another what {@link checkTree} says. It remembers what it found in parts that two trees
 * share by identity, so that a tree which an edit has made of the one before costs little more than what the edit touches.
 */
export function openChecker(): (tree: Tree) => readonly Problem[] {
  const recall = openMemory();
  const namesOf = openNames();
  return (tree) => problemsOf(tree, namesOf(tree), recall, true);
}

/** `isWhole` is false where parts of the document are missing from the tree, so that nothing can be said of it as a whole. */
function problemsOf(tree: Tree, names: Names, recall: Recall, isWhole: boolean): readonly Problem[] {
  const course = courseOf(tree);
  const named = namedByWeights(tree);
  const otherwise = recall('otherwise', course.order, [tree.findings, named], () =>
    otherwiseOf(tree, course),
  );
  const errors = [
    ...checkSize(tree, course),
    ...checkReferences(tree, course, names, recall),
    ...checkBench(tree),
    ...checkInterlocks(tree),
    ...checkBands(tree),
    ...checkCourse(tree, course, otherwise, names, recall),
    ...checkWeights(tree, course),
  ];
  const onTheWhole =
    isWhole && errors.length === 0 ? warningsOnTheWhole(tree, course, otherwise, named, recall) : [];
  return [
    ...errors,
    ...onTheWhole,
    ...warnOfProofs(tree),
    ...warnOfRepeats(tree),
    ...warnOfUnits(tree),
    ...warnOfCautions(tree, course, recall),
    ...warnOfInterlocks(tree),
  ];
}

/** Findings times steps or tests: what the arithmetic's largest tables have places for. */
const LARGEST_TABLE = 16_000_000;

function checkSize(tree: Tree, course: Course): readonly Problem[] {
  const findings = Object.keys(tree.findings).length;
  const most = Math.max(course.steps.length, Object.keys(tree.tests).length);
  if (findings * most <= LARGEST_TABLE) return [];
  const message = `The tree has ${String(findings)} findings and ${String(most)} steps or tests, too many to reckon with.`;
  return [
    errorAt(
      [],
      'too-large-to-reckon',
      message,
      'Split it into several trees, one for each part of the unit.',
    ),
  ];
}

/**
 * Reads and checks a file: `tree` is null where there is any error; warnings do not keep it from being used. A document with
 * errors of shape has those parts set aside, and what the rest means is checked in the same go.
 */
export function readAndCheck(source: Uint8Array | string): {
  readonly tree: Tree | null;
  readonly errors: readonly Problem[];
  readonly warnings: readonly Problem[];
} {
  const read = readDocument(source);
  const problems = read.tree === null ? [...read.problems, ...meant(read.remains())] : checkTree(read.tree);
  const errors = problems.filter(({ severity }) => severity === 'error');
  const warnings = problems.filter(({ severity }) => severity === 'warning');
  return {
    tree: errors.length === 0 ? read.tree : null,
    errors: firstProblems(errors),
    warnings: firstProblems(warnings),
  };
}

function meant(remains: Remains | null): readonly Problem[] {
  if (remains === null) return [];
  const { tree } = remains;
  return remains.inDocument(problemsOf(tree, openNames()(tree), openMemory(), false));
}

function warningsOnTheWhole(
  tree: Tree,
  course: Course,
  otherwise: Otherwise,
  named: string,
  recall: Recall,
): readonly Problem[] {
  const { order } = course;
  const reach = recall('reach', order, [otherwise, named], () => reachOfTree(tree, course, otherwise));
  const { findings, tests, interlocks } = tree;
  return [
    ...recall('use', order, [reach, findings, tests, interlocks], () =>
      warnOfUse(tree, course, otherwise, reach),
    ),
    ...warnOfExpectations(tree, course, reach.findings, recall),
  ];
}

/** The findings that symptoms' own weights name, by symptom: all that matters of these to where one can come to. */
function namedByWeights({ symptoms }: Tree): string {
  return JSON.stringify(Object.values(symptoms).map(({ weights }) => Object.keys(weights)));
}
