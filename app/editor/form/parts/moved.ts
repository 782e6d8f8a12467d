import { isList } from '../../../../trees/document/index.ts';
import {
  at,
  drop,
  type Change,
  type DraftDocument,
  type Key,
  type Path,
} from '../../../../trees/edit/index.ts';

/** The change that has an entry of a list or record stand at another place of it. */
export function changesToMove(path: Path, key: Key, to: number): readonly Change[] {
  return [{ do: 'move', path: [...path, key], at: to }];
}

/** The changes that take an entry out of a list. A list left empty goes where the document may do without it. */
export function changesToRemove(document: DraftDocument, path: Path, index: number): readonly Change[] {
  const list = at(document, path);
  const isLast = isList(list) && list.length === 1 && index === 0;
  return drop(document, isLast ? path : [...path, index]);
}

/**
 * Where a key moves the entry at `index` of `count`: one up by Alt and ↑, one down by Alt and ↓, not past the ends. Null for any
 * other key.
 */
export function keyedMove(
  event: Pick<KeyboardEvent, 'key' | 'altKey' | 'ctrlKey' | 'metaKey' | 'shiftKey'>,
  index: number,
  count: number,
): number | null {
  if (!event.altKey || event.ctrlKey || event.metaKey || event.shiftKey) return null;
  if (event.key === 'ArrowUp') return Math.max(0, index - 1);
  if (event.key === 'ArrowDown') return Math.min(count - 1, index + 1);
  return null;
}
