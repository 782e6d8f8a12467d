import { pointerOf } from '../../../trees/document/index.ts';
import type { Branch } from '../../../trees/review/index.ts';
import { hashOf, withQuery } from '../../shell/index.ts';

/** The address of a branch in the editor: in the draft that is in hand, else in the current revision. */
export function placeInTree({ tree, symptom, step, result }: Branch): string {
  const at = pointerOf(['symptoms', symptom, 'steps', step, 'then', result]);
  return withQuery(hashOf('trees', 'at', tree), { at });
}
