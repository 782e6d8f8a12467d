import { quote, warningAt, type Problem } from './problem.ts';
import type { Tree } from './tree.ts';

/** Entries that stand twice in a list in which each counts once. */
export function warnOfRepeats(tree: Tree): readonly Problem[] {
  return [
    ...repeated(tree.unit.boards, ['unit', 'boards']),
    ...Object.entries(tree.findings).flatMap(([id, { prove, remedy }]) => [
      ...repeated(prove, ['findings', id, 'prove']),
      ...repeated(remedy.disturbs, ['findings', id, 'remedy', 'disturbs']),
    ]),
  ];
}

function repeated(entries: readonly string[], at: readonly PropertyKey[]): readonly Problem[] {
  const seen = new Set<string>();
  return entries.flatMap((entry, place) => {
    const again = seen.has(entry);
    seen.add(entry);
    if (!again) return [];
    const message = `${quote(entry)} stands in this list twice.`;
    return [warningAt([...at, place], 'duplicate-entry', message, 'Keep one of the two.')];
  });
}
