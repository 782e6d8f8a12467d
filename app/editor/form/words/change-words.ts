import { pointerOf, type Tree } from '../../../../trees/document/index.ts';
import type { Path } from '../../../../trees/edit/index.ts';
import { partWords } from '../../desk/part-words.ts';

/** What a change of a field is called where it can be undone: `Change minutes of test 3.3 V rail`. */
export function changeWords(tree: Tree, path: Path, label: string): string {
  return actWords(tree, path, `Change ${inSentence(label)}`);
}

/** What is done to the part that a path is in: `Remove caution 2 of finding Open ribbon`. */
export function actWords(tree: Tree, path: Path, act: string): string {
  return `${act} of ${partWords(tree, pointerOf(path))}`;
}

/** A label in the middle of a sentence; an abbreviation keeps its capitals. */
export function inSentence(label: string): string {
  return /^[A-Z](?![A-Z])/.test(label) ? label.charAt(0).toLowerCase() + label.slice(1) : label;
}
