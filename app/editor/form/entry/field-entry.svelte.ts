import { pointerOf } from '../../../../trees/document/index.ts';
import { at, putOrDrop, type Change, type Json, type Path } from '../../../../trees/edit/index.ts';
import { keyOf } from '../../../parts/index.ts';
import { useDesk, type EditorDesk } from '../../desk/editor-desk.svelte.ts';
import { changeWords } from '../words/change-words.ts';
import type { Entered } from './number-entry.ts';
import { useTyping, type Typing } from './typing.svelte.ts';

/** A field of the document: where it is, what it is called, and how its value is typed and written. */
export interface FieldKind {
  readonly path: Path;
  readonly label: string;
  readonly read: (typed: string) => Entered<Json>;
  readonly write: (value: Json | undefined) => string;
  /** The changes that make it the value, where more hangs on it than what stands at its path. */
  readonly changes?: (value: Json | undefined) => readonly Change[];
}

/** A field being typed in: every text that the document takes is an edit at once, all of them together one to undo. */
export class FieldEntry {
  readonly desk: EditorDesk;
  readonly #typing: Typing;
  readonly #field: () => FieldKind;

  constructor(field: () => FieldKind) {
    this.desk = useDesk();
    this.#typing = useTyping();
    this.#field = field;
  }

  get place(): string {
    return pointerOf(this.#field().path);
  }

  get value(): Json | undefined {
    return at(this.desk.document, this.#field().path);
  }

  get shown(): string {
    return this.#typing.at(this.place, this.value)?.text ?? this.#field().write(this.value);
  }

  /** Why what is typed is not in the document; undefined where it is. */
  get wrong(): string | undefined {
    return this.#typing.at(this.place, this.value)?.wrong;
  }

  type(text: string): void {
    const wrong = this.#take(text);
    this.#typing.keep(this.place, { text, over: this.value, wrong });
  }

  /** The field is left: what the document took is shown as the document has it. */
  leave(): void {
    if (this.wrong === undefined) this.#typing.forget(this.place);
    this.desk.settle();
  }

  /** Undo first takes what is typed and not taken; the document’s own undo comes after that. */
  key(event: KeyboardEvent): void {
    if (this.wrong === undefined || keyOf(event) !== 'Ctrl+z') return;
    event.preventDefault();
    event.stopPropagation();
    this.#typing.forget(this.place);
  }

  #take(text: string): string | undefined {
    const { path, label, read, changes } = this.#field();
    const entered = read(text);
    if (!entered.ok) return entered.wrong;
    const { desk } = this;
    const edit = changes?.(entered.value) ?? putOrDrop(desk.document, path, entered.value);
    const made = desk.edit(changeWords(desk.tree, path, label), edit, { joins: this.place });
    return made ? undefined : desk.refusal;
  }
}
