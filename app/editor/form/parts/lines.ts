import type { Tree } from '../../../../trees/document/index.ts';
import { minutesWords, type SearchLine } from '../../../parts/index.ts';
import { INSTRUMENT_WORDS } from '../../../shell/index.ts';
import { titled } from '../../desk/part-words.ts';

/** A tree’s tests to choose from, but for some. */
export function testLines(tree: Tree, but: readonly string[] = []): readonly SearchLine[] {
  return Object.entries(tree.tests).flatMap(([id, { title, instrument, minutes }]) =>
    but.includes(id)
      ? []
      : [{ id, title: titled(title), notes: [INSTRUMENT_WORDS[instrument], minutesWords(minutes)] }],
  );
}

/** A tree’s findings to choose from, but for some. */
export function findingLines(tree: Tree, but: readonly string[] = []): readonly SearchLine[] {
  return Object.entries(tree.findings).flatMap(([id, { title }]) =>
    but.includes(id) ? [] : [{ id, title: titled(title), notes: ['finding'] }],
  );
}
