import { jsonValues } from '../../trees/edit/index.ts';

/** Values that may be recorded at once: a tree of 2,000 steps has 32,000 altogether. */
const MOST_VALUES = 200_000;

/** Whether a value can be recorded at once: JSON, and neither nested deeper nor larger than what is edited in a tree document. */
export function isShallow(value: unknown): boolean {
  return jsonValues(value) <= MOST_VALUES;
}
