import { numberedSteps } from '../../../app/editor/drawing/numbered-steps.ts';
import type { Tree } from '../../../trees/document/index.ts';
import { smallTree } from '../../support/trees.ts';

/** Other paths than any of these are asked about, until nothing is remembered of them. */
export function forgetNumbers(): void {
  for (let other = 0; other < 4; other += 1) {
    const path = { title: '', first: 'a', steps: { a: { test: '', then: {} } } };
    numberedSteps(
      { ...smallTree(), symptoms: { [`other-${String(other)}`]: path } } as Tree,
      `other-${String(other)}`,
    );
  }
}
