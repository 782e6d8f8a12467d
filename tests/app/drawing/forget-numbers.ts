import { numberedSteps } from '../../../app/editor/drawing/numbered-steps.ts';
import { smallTree } from '../../support/trees.ts';

/** Other paths than any of these are asked about, until nothing is remembered of them. */
export function forgetNumbers(): void {
  for (let other = 0; other < 4; other += 1) {
    const path = { title: '', weights: {}, first: 'a', steps: { a: { test: '', then: {} } } };
    const id = `other-${String(other)}`;
    numberedSteps({ ...smallTree(), symptoms: { [id]: path } }, id);
  }
}
