import { pointerOf } from '../../../../trees/document/index.ts';
import type { Key, Path } from '../../../../trees/edit/index.ts';
import { voice } from '../../../shell/index.ts';
import type { EditorDesk } from '../../desk/editor-desk.svelte.ts';
import type { Typing } from '../entry/typing.svelte.ts';
import { focusPlace, focusTool } from '../focus-place.ts';
import { actWords } from '../words/change-words.ts';
import { changesToMove, changesToRemove, keyedMove } from './moved.ts';

/** A list or record of the document whose entries have an order. */
export interface Ordered {
  readonly path: Path;
  /** What one of its entries is called in the middle of a sentence. */
  readonly entry: string;
  /** The keys of a record’s entries; absent for a list. */
  readonly keys?: readonly Key[];
  /** Takes an entry out where that is more than that entry’s going. */
  readonly remove?: (pointer: string) => void;
}

/** Moves and removes the entries of a list or record; the focus goes where the entry went. */
export class ListMoves {
  readonly desk: EditorDesk;
  readonly #typing: Typing;
  readonly #list: () => Ordered;

  constructor(desk: EditorDesk, typing: Typing, list: () => Ordered) {
    this.desk = desk;
    this.#typing = typing;
    this.#list = list;
  }

  name(index: number): string {
    return `${this.#list().entry} ${String(index + 1)}`;
  }

  pointer(index: number): string {
    const { path, keys } = this.#list();
    return pointerOf([...path, keys?.[index] ?? index]);
  }

  /** Alt and an arrow key move the entry that is being typed in. */
  key(event: KeyboardEvent, index: number, count: number): void {
    const to = keyedMove(event, index, count);
    if (to === null || this.desk.readonly) return;
    event.preventDefault();
    if (to !== index && this.#move(index, to)) void focusPlace(this.pointer(to));
  }

  /** Moves an entry by its button, which keeps the focus. */
  step(index: number, to: number): void {
    if (this.#move(index, to)) void focusTool(this.pointer(to), to < index ? 'up' : 'down');
  }

  remove(index: number, count: number): void {
    const { path, remove } = this.#list();
    if (remove !== undefined) return remove(this.pointer(index));
    const { desk } = this;
    const name = this.name(index);
    const what = actWords(desk.tree, path, `Remove ${name}`);
    if (!desk.edit(what, changesToRemove(desk.document, path, index))) return;
    this.#typing.forgetIn(pointerOf(path));
    voice.say(`Removed: ${name}.`);
    void focusPlace(count === 1 ? pointerOf(path) : this.pointer(Math.min(index, count - 2)));
  }

  #move(index: number, to: number): boolean {
    const { path, keys } = this.#list();
    const what = actWords(this.desk.tree, path, `Move ${this.name(index)}`);
    if (!this.desk.edit(what, changesToMove(path, keys?.[index] ?? index, to))) return false;
    if (keys === undefined) this.#typing.forgetIn(pointerOf(path));
    voice.say(`Moved: it is ${this.name(to)} now.`);
    return true;
  }
}
