import type { ReviewNames } from '../../../main/contract/index.ts';
import { own } from '../../../trees/document/index.ts';

/** Titles of what a review speaks of; an id stands for itself where the tree no longer has the part. */

export function treeTitle({ trees }: ReviewNames, tree: string): string {
  return own(trees, tree) ?? tree;
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
