import type { Tree } from '../../trees/document/index.ts';
import type { Change } from '../../trees/edit/index.ts';
import { pick, type Draw } from './draw.ts';

/** Another weight at a branch of the tree; no change where it has none. Some sum to nothing, some to more than any number. */
export function drawWeight(draw: Draw, { symptoms }: Tree): readonly Change[] {
  const branches = Object.entries(symptoms).flatMap(([symptom, { steps }]) =>
    Object.entries(steps).flatMap(([step, { then }]) =>
      Object.keys(then).map((result) => ['symptoms', symptom, 'steps', step, 'then', result, 'weight']),
    ),
  );
  if (branches.length === 0) return [];
  return [{ do: 'set', path: pick(draw, branches), value: pick(draw, [0, 0.25, 1, 7, 1e308]) }];
}
