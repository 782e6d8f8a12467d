import type { Path } from '../change.ts';
import { isRecord, type Json } from '../json.ts';
import { interlocksWith, leaveEntry } from './leave-interlocks.ts';
import { at, drop, keysAt, make, sift, titleOf, type Work } from './removal-work.ts';

/** Takes out what refers to an axis of the bench, or to one state of it. */
export function leaveAxis(work: Work, axis: string, state: string | null): void {
  const goes = (needed: Json | undefined): boolean =>
    needed !== undefined && (state === null || needed === state);
  for (const test of keysAt(work, ['tests']))
    leaveNeed(work, ['tests', test], ['tests', test, 'needs', axis], goes);
  for (const finding of keysAt(work, ['findings']))
    leaveNeed(work, ['findings', finding], ['findings', finding, 'remedy', 'needs', axis], goes);
  for (const index of interlocksWith(work, 'change', axis)) {
    if (goes(at(work, ['interlocks', index, 'change', axis])))
      leaveEntry(work, index, 'change', axis, `no longer bars it`);
  }
  if (state === null) return;
  const changes = ['bench', axis, 'changes'];
  const stays = (one: Json): boolean => !isRecord(one) || (one.from !== state && one.to !== state);
  make(work, sift(work, changes, stays), changes, `Its changeovers go.`);
  const start = ['bench', axis, 'start'];
  const other = keysAt(work, ['bench', axis, 'states']).find((each) => each !== state);
  if (at(work, start) === state && other !== undefined)
    make(
      work,
      [{ do: 'set', path: start, value: other }],
      start,
      `A unit now comes in ${titleOf(work, ['bench', axis, 'states', other])}.`,
    );
}

function leaveNeed(work: Work, whose: Path, path: Path, goes: (needed: Json | undefined) => boolean): void {
  if (goes(at(work, path))) make(work, drop(work, path), path, `${titleOf(work, whose)} no longer needs it.`);
}
