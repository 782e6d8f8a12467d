import { isList } from '../json.ts';
import { at, drop, keysAt, make, titleOf, type Work } from './removal-work.ts';

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
  if (keysAt(work, [...path, part]).length > 1)
    make(work, drop(work, [...path, part, key]), path, `${interlockOf(work, index)} ${says}.`);
  else
    make(work, drop(work, path), path, `${interlockOf(work, index)} goes: it ${says}, and has nothing else.`);
}

/** An interlock by the changeovers that it bars, as a sentence begins with it. */
export function interlockOf(work: Work, index: number): string {
  const change = ['interlocks', index, 'change'];
  const bars = keysAt(work, change).map((axis) => {
    const state = String(at(work, [...change, axis]));
    return `${titleOf(work, ['bench', axis])} to ${titleOf(work, ['bench', axis, 'states', state])}`;
  });
  return bars.length === 0 ? 'An interlock' : `The interlock of ${bars.join(' and ')}`;
}

/** The interlocks that have a key, last first, so that taking one out moves none of those still to come. */
export function interlocksWith(work: Work, part: 'until' | 'change', key: string): readonly number[] {
  const list = at(work, ['interlocks']);
  const indices = isList(list) ? [...list.keys()].reverse() : [];
  return indices.filter((index) => at(work, ['interlocks', index, part, key]) !== undefined);
}
