import { pathOf } from '../../document/index.ts';
import type { Change, Path } from '../change.ts';
import { isList, isRecord, type DraftDocument, type Json } from '../json.ts';
import { leaveAxis } from './leave-axis.ts';
import { interlockOf, interlocksWith, leaveEntry, leaveInterlocks } from './leave-interlocks.ts';
import { leaveFinding, leaveStep, leaveSymptom } from './leave-places.ts';
import {
  at,
  drop,
  isAt,
  keysAt,
  make,
  note,
  openWork,
  sift,
  stepOf,
  titleOf,
  type Work,
} from './removal-work.ts';

/** What taking parts out of a document takes with it. */
export interface Removal {
  readonly changes: readonly Change[];
  /** What goes or changes besides the parts named, each at its place in the document as it is, in words. */
  readonly also: readonly { readonly at: string; readonly says: string }[];
}

/**
 * The removal of parts (tests, results, findings, symptoms, steps, branches, axes, states, changeovers, interlocks; named by
 * their pointers) together with everything that refers to them, so that nothing is left that leads nowhere.
 */
export function removalOf(document: DraftDocument, pointers: readonly string[]): Removal {
  const work = openWork(document, pointers);
  // Entries of a list are taken out from its end, so that the others keep their index meanwhile.
  for (const pointer of [...pointers].sort(lastFirst)) remove(work, keysOf(pointer));
  return { changes: work.changes, also: work.also };
}

function remove(work: Work, path: Path): void {
  const [root, id = '', field, inner = ''] = path.map(String);
  if (!isAt(work, path)) return;
  if (root === 'tests' && path.length === 2) leaveTest(work, id);
  if (root === 'tests' && path.length === 4 && field === 'results') leaveResult(work, id, inner);
  if (root === 'findings' && path.length === 2) leaveFinding(work, id);
  if (root === 'symptoms' && path.length === 2) leaveSymptom(work, id);
  if (root === 'symptoms' && path.length === 4 && field === 'steps') leaveStep(work, id, inner);
  if (root === 'bench' && path.length === 2) leaveAxis(work, id, null);
  if (root === 'bench' && path.length === 4 && field === 'states') {
    // An axis without a state is none.
    if (keysAt(work, path.slice(0, 3)).length === 1) {
      remove(work, path.slice(0, 2));
      return;
    }
    leaveAxis(work, id, inner);
  }
  make(work, drop(work, path));
}

function leaveTest(work: Work, test: string): void {
  for (const [symptom, step] of work.leads().making(test)) {
    const path = ['symptoms', symptom, 'steps', step];
    if (at(work, [...path, 'test']) !== test) continue;
    note(work, path, `The step of ${titleOf(work, ['symptoms', symptom])} that makes it goes.`);
    remove(work, path);
  }
  leaveInterlocks(work, 'until', test, `no longer waits for it`);
  for (const other of keysAt(work, ['tests'])) leaveRatios(work, other, test);
  for (const finding of keysAt(work, ['findings'])) {
    const path = ['findings', finding];
    const words = titleOf(work, path);
    const uses: readonly (readonly [Path, string])[] = [
      [[...path, 'prove'], `It no longer proves that ${words} is mended.`],
      [[...path, 'remedy', 'disturbs'], `The remedy for ${words} no longer disturbs it.`],
    ];
    for (const [list, says] of uses)
      make(
        work,
        sift(work, list, (one) => one !== test),
        list,
        says,
      );
    const expected = [...path, 'expects', test];
    make(work, drop(work, expected), expected, `What ${words} expects of it goes.`);
  }
}

function leaveRatios(work: Work, test: string, reference: string): void {
  for (const result of keysAt(work, ['tests', test, 'results'])) {
    const band = ['tests', test, 'results', result, 'band'];
    if (at(work, [...band, 'of']) !== reference) continue;
    const says = `The band of ${titleOf(work, band.slice(0, -1))} of ${titleOf(work, ['tests', test])}, a ratio to it, goes.`;
    make(work, drop(work, band), band, says);
  }
}

function leaveResult(work: Work, test: string, result: string): void {
  for (const [symptom, step] of work.leads().making(test)) {
    const path = ['symptoms', symptom, 'steps', step];
    if (at(work, [...path, 'test']) !== test) continue;
    const branch = [...path, 'then', result];
    make(work, drop(work, branch), branch, `Its branch of ${stepOf(work, symptom, step)} goes.`);
  }
  for (const finding of keysAt(work, ['findings'])) {
    const path = ['findings', finding, 'expects', test];
    const expected = at(work, path);
    const says = `What ${titleOf(work, ['findings', finding])} expects of the test changes.`;
    if (expected === result) make(work, drop(work, path), path, says);
    else if (isRecord(expected)) make(work, withoutShare(work, path, expected, result), path, says);
  }
  interlocksWith(work, 'until', test).forEach((index) => {
    const path = ['interlocks', index, 'until', test];
    const kept = sift(work, path, (one) => one !== result);
    if (kept.length === 0) return;
    const list = at(work, path);
    const isLast = isList(list) && list.every((one) => one === result);
    if (isLast) leaveEntry(work, index, 'until', test, `no longer waits for the test`);
    else make(work, kept, path, `${interlockOf(work, index)} no longer opens by it.`);
  });
}

/** Without one result's share, the others making up the whole again; nothing where none is left. */
function withoutShare(work: Work, path: Path, shares: Json, result: string): readonly Change[] {
  if (!isRecord(shares) || !Object.hasOwn(shares, result)) return [];
  const kept = Object.entries(shares).filter(([each]) => each !== result);
  const total = kept.reduce((sum, [, share]) => sum + Number(share), 0);
  if (total <= 0) return drop(work, path);
  const value = Object.fromEntries(kept.map(([each, share]) => [each, Number(share) / total]));
  return [{ do: 'set', path, value }];
}

function keysOf(pointer: string): Path {
  return pathOf(pointer).map((key, depth, all) =>
    /^\d+$/.test(key) && (all[0] === 'interlocks' || all[2] === 'changes') && depth > 0 ? Number(key) : key,
  );
}

function lastFirst(a: string, b: string): number {
  return b.localeCompare(a, 'en', { numeric: true });
}
