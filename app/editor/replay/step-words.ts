import type { Tree } from '../../../trees/document/index.ts';
import type { ReplayStep } from '../../../trees/replay/index.ts';
import { findingTitle, readingWords, resultTitle, stateTitle, testTitle } from '../../bench/index.ts';

/** A step of a replay as a line: what was done, what came of it, and the reading. */
export interface StepWords {
  readonly what: string;
  readonly came: string;
  readonly reading: string;
}

/** A step of a replay in the tree’s own words. */
export function stepWords(tree: Tree, step: ReplayStep): StepWords {
  switch (step.kind) {
    case 'test': {
      const reading = step.value === null ? undefined : { value: step.value };
      return {
        what: testTitle(tree, step.test),
        came: resultTitle(tree, step.test, step.result),
        reading: readingWords(tree, { test: step.test, reading }),
      };
    }
    case 'skip':
      return {
        what: `${testTitle(tree, step.test)}, skipped as in the job`,
        came: step.as === null ? 'left out' : `as ${resultTitle(tree, step.test, step.as)}`,
        reading: '',
      };
    case 'change':
      return {
        what: tree.bench[step.axis]?.title ?? step.axis,
        came: stateTitle(tree, step.axis, step.to),
        reading: '',
      };
    case 'remedy':
      return {
        what: 'Remedy done in vain, as in the job',
        came: findingTitle(tree, step.finding),
        reading: '',
      };
  }
}
