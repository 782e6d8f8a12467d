import type { Course } from './course.ts';
import { errorAt, quote, type Problem } from './problem.ts';
import type { Tree } from './tree.ts';

/** How far shares that should sum to 1 may be off, for being written in decimals. */
const SHARES_OFF = 1e-6;

/** Weights and shares that cannot be taken as chances. */
export function checkWeights(tree: Tree, course: Course): readonly Problem[] {
  return [...symptomWeights(tree), ...branchWeights(tree, course), ...expectedShares(tree)];
}

function symptomWeights(tree: Tree): readonly Problem[] {
  return Object.entries(tree.symptoms)
    .filter(([, { weights }]) => Object.keys(weights).length > 0 && sum(Object.values(weights)) === 0)
    .map(([id]) => {
      const message = `The weights of ${quote(id)} are all zero.`;
      return errorAt(
        ['symptoms', id, 'weights'],
        'symptom-weights-zero',
        message,
        'Give the findings that occur a weight, in units.',
        [['symptoms', id, 'weights']],
      );
    });
}

function branchWeights(tree: Tree, { steps }: Course): readonly Problem[] {
  return steps
    .filter(({ symptom, step, branches }) => {
      // Shares of weights that sum to more than any number are nothing too.
      if (branches.length === 0 || branches.some(({ share }) => share > 0)) return false;
      const then = tree.symptoms[symptom]?.steps[step]?.then ?? {};
      return sum(Object.values(then).map(({ weight }) => weight)) === 0;
    })
    .map(({ symptom, step }) => {
      const message = `All branches of the step ${quote(step)} have weight zero.`;
      const at = ['symptoms', symptom, 'steps', step, 'then'];
      const help = 'Give the branches that occur a weight, in units.';
      return errorAt(at, 'branch-weights-zero', message, help, [at]);
    });
}

function expectedShares(tree: Tree): readonly Problem[] {
  return Object.entries(tree.findings).flatMap(([id, { expects }]) =>
    Object.entries(expects).flatMap(([test, expected]) => {
      if (typeof expected === 'string') return [];
      const total = sum(Object.values(expected));
      if (Math.abs(total - 1) <= SHARES_OFF) return [];
      const message = `The shares expected of ${quote(test)} sum to ${String(Number(total.toFixed(6)))}, not to 1.`;
      return [
        errorAt(
          ['findings', id, 'expects', test],
          'shares-sum',
          message,
          'Mend the shares so that they sum to 1.',
          [['findings', id, 'expects', test]],
        ),
      ];
    }),
  );
}

function sum(numbers: readonly number[]): number {
  return numbers.reduce((total, number) => total + number, 0);
}
