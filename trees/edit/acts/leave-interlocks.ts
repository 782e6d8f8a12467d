import { isList } from '../json.ts';
import { keysAt } from './keys-at.ts';
import { at, drop } from './put.ts';
import { make, type Work } from './removal-work.ts';

/** Takes an entry out of every interlock that has it. */
export function leaveInterlocks(work: Work, part: 'until' | 'change', key: string, says: string): void {
  for (const index of interlocksWith(work, part, key)) leaveEntry(work, index, part, key, says);
}

/** Takes an entry out of an interlock; without its last one the interlock itself goes. */
export function leaveEntry(
  work: Work,
  index: number,
  part: 'until' | 'change',
  key: string,
  says: string,
): void {
  const path = ['interlocks', index];
  if (keysAt(work.document, [...path, part]).length > 1)
    make(work, drop(work.document, [...path, part, key]), path, `An interlock ${says}.`);
  else make(work, drop(work.document, path), path, `An interlock goes: it ${says}, and has nothing else.`);
}

/** The interlocks that have a key, last first, so that taking one out moves none of those still to come. */
export function interlocksWith(work: Work, part: 'until' | 'change', key: string): readonly number[] {
  const list = at(work.document, ['interlocks']);
  const indices = isList(list) ? [...list.keys()].reverse() : [];
  return indices.filter((index) => at(work.document, ['interlocks', index, part, key]) !== undefined);
}
