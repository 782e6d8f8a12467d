import type { ReviewNames } from '../../../main/contract/index.ts';
import { own } from '../../../trees/document/index.ts';

/** Titles of what a review speaks of; an id stands for itself where the tree no longer has the part. */

/** Nothing has a title yet. */
export const NO_NAMES: ReviewNames = {
  trees: {},
  symptoms: {},
  findings: {},
  tests: {},
  results: {},
  technicians: {},
  revisions: {},
};

export function treeTitle({ trees }: ReviewNames, tree: string): string {
  return own(trees, tree) ?? tree;
}

/**
 * What tells a tree from the shop’s others, to stand beside a part of it: its title without the words that all of them begin with.
 */
export function treeMark(names: ReviewNames, tree: string): string {
  const titles = Object.values(names.trees).map((title) => title.split(' '));
  const words = treeTitle(names, tree).split(' ');
  const shared =
    titles.length < 2 ? 0 : words.findIndex((word, at) => titles.some((one) => one[at] !== word));
  return words.slice(Math.max(shared, 0)).join(' ');
}

/** Which tree a part is of, to stand beside its title; nothing where a review is of one tree only. */
export function treeBeside(
  names: ReviewNames,
  { byTree }: { readonly byTree: readonly unknown[] },
  tree: string | null,
): string {
  return byTree.length > 1 && tree !== null ? treeMark(names, tree) : '';
}

export function symptomTitle({ symptoms }: ReviewNames, tree: string, symptom: string): string {
  return own(symptoms, `${tree}/${symptom}`) ?? symptom;
}

/** `unlisted` is the finding of units that were mended by something that the tree does not list. */
export function findingTitle({ findings }: ReviewNames, tree: string, finding: string): string {
  return own(findings, `${tree}/${finding}`) ?? (finding === 'unlisted' ? 'Not listed in the tree' : finding);
}

export function testTitle({ tests }: ReviewNames, tree: string, test: string): string {
  return own(tests, `${tree}/${test}`) ?? test;
}

export function resultTitle({ results }: ReviewNames, tree: string, test: string, result: string): string {
  return own(results, `${tree}/${test}/${result}`) ?? result;
}

export function technicianTitle({ technicians }: ReviewNames, technician: string): string {
  return own(technicians, technician) ?? technician;
}

export function boardTitle(board: string): string {
  return board === '' ? 'No board noted' : board;
}
