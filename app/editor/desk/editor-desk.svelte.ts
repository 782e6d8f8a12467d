import { createContext } from 'svelte';
import { pathOf as keysOf, pointerOf, type Problem, type Tree } from '../../../trees/document/index.ts';
import {
  applyEntry,
  liveTree,
  textOf,
  type Change,
  type Draft,
  type DraftDocument,
  type DraftEntry,
  type Made,
} from '../../../trees/edit/index.ts';
import { voice, type Asked, type Session } from '../../shell/index.ts';
import { DraftKeeper } from './draft-keeper.svelte.ts';
import { treeIn, type Opened } from './opened-draft.ts';
import { hasPart, symptomOf } from './places.ts';

/** How an edit is recorded. */
export interface EditOptions {
  /** Edits that follow each other under the same name (a field being typed in) are undone together. */
  readonly joins?: string;
}

/** What the desk holds until its draft is laid on it. */
const NOTHING: Draft = {
  baseText: '{}',
  base: {},
  document: {},
  size: { bytes: 0, values: 0 },
  undo: null,
  redo: null,
  rebasedOn: null,
};

/** Is told of every change of the document, in order: the reckoner mirrors it. */
export type Follow = (changes: readonly Change[]) => void;

/** What is asked before it is done. */
export type Asking =
  | { readonly kind: 'remove'; readonly pointers: readonly string[] }
  /** Where a branch is to lead, or which step a path is to begin with (`branch` null). */
  | {
      readonly kind: 'lead';
      readonly symptom: string;
      readonly branch: { readonly step: string; readonly result: string } | null;
    }
  | { readonly kind: 'add'; readonly what: 'symptom' | 'test' | 'finding' | 'axis' | 'interlock' }
  | { readonly kind: 'find' }
  | { readonly kind: 'publish' }
  | { readonly kind: 'propose' };

/**
 * A tree on the editor’s desk: the document as the edits have made it, what is selected, and the record of every edit. A
 * published revision lies here to be read; then nothing can be edited.
 */
export class EditorDesk {
  readonly session: Session;
  readonly opened: Opened;
  readonly keeper: DraftKeeper | null;
  #followers: readonly Follow[] = [];
  #joining: string | null = null;

  draft = $state.raw<Draft>(NOTHING);
  readonly document: DraftDocument = $derived(this.draft.document);
  /** The document as the checker and the arithmetic take it. */
  readonly tree: Tree = $derived(liveTree(this.document).tree);
  /** Texts that are still blank. */
  readonly blanks: readonly Problem[] = $derived(liveTree(this.document).blanks);

  /** The text of the published revision that the draft stands on, once it is read; null where there is none. */
  publishedText = $state.raw<string | null>(null);
  /** That revision as a tree. It is not what the draft began as where that was taken in as a file or has been merged since. */
  readonly published: Tree | null = $derived(treeIn(this.publishedText));

  /** What the form shows, by pointer into the document; '' is the tree itself. */
  selected = $state('');
  /** Everything selected, {@link EditorDesk.selected} among it, for what is done to several parts at once. */
  marked = $state.raw<readonly string[]>([]);
  /** The symptom whose path the drawing shows. */
  symptom = $state<string | null>(null);
  view = $state<'drawing' | 'table'>('drawing');
  asking = $state.raw<Asking | null>(null);
  /** Why the last edit was not made; empty where it was. */
  refusal = $state('');
  /** What the last act did besides what was asked for, in sentences; empty where that is nothing. */
  notice = $state('');

  readonly readonly: boolean;
  readonly undoes: string | null = $derived(this.draft.undo?.top.what ?? null);
  readonly redoes: string | null = $derived(this.draft.redo?.top.what ?? null);

  constructor(session: Session, opened: Opened) {
    this.session = session;
    this.opened = opened;
    this.draft = opened.draft;
    this.readonly = opened.kind === 'revision';
    this.keeper =
      opened.kind === 'draft'
        ? new DraftKeeper(session, opened.full.draft.draftId, opened.full.entries.length)
        : null;
    this.symptom = Object.keys(this.tree.symptoms)[0] ?? null;
  }

  get text(): string {
    return textOf(this.draft);
  }

  /** The tree's id in the shop's records, whatever the document says. */
  get treeId(): string {
    return this.opened.kind === 'draft' ? this.opened.full.draft.treeId : this.opened.revision.treeId;
  }

  /** The published revision that the draft stands on; null for a tree that is not published yet. */
  get base(): string | null {
    if (this.opened.kind === 'revision') return this.opened.revision.revisionId;
    return this.draft.rebasedOn ?? this.opened.full.draft.base;
  }

  /** Makes an edit and records it. False, with {@link EditorDesk.refusal} saying why, where it cannot be made. */
  edit(what: string, changes: readonly Change[], { joins }: EditOptions = {}): boolean {
    if (changes.length === 0) return true;
    const joined = joins !== undefined && joins === this.#joining && this.draft.undo !== null;
    const made = this.#make({
      kind: 'edit',
      what: shortened(what),
      changes,
      ...(joined && { joins: true as const }),
    });
    this.#joining = made ? (joins ?? null) : null;
    return made;
  }

  /** {@link EditorDesk.edit} for something added, which is then selected under this pointer. */
  add(what: string, { id, changes }: Made, pointer: (id: string) => string): string | null {
    if (!this.edit(what, changes)) return null;
    this.select(pointer(id));
    return id;
  }

  undo(): void {
    const what = this.undoes;
    if (what !== null && this.#make({ kind: 'undo' })) voice.say(`Undone: ${what}`);
    this.#joining = null;
  }

  redo(): void {
    const what = this.redoes;
    if (what !== null && this.#make({ kind: 'redo' })) voice.say(`Done again: ${what}`);
    this.#joining = null;
  }

  /** Records that the draft stands on another revision now, what that one changed having been merged. */
  rebase(revisionId: string): boolean {
    return this.#make({ kind: 'rebase', revisionId });
  }

  /** Makes an entry again that was made on another desk, and records it under the name of who made it there. */
  makeAgain(entry: DraftEntry, technicianId: string | undefined): boolean {
    return this.#make(entry, technicianId);
  }

  /** Ends the joining of edits, as when a field is left. */
  settle(): void {
    this.#joining = null;
  }

  /** Selects a part alone, and turns the drawing to its path. */
  select(pointer: string): void {
    this.selected = pointer;
    this.marked = pointer === '' ? [] : [pointer];
    this.symptom = symptomOf(pointer) ?? this.symptom;
    this.refusal = '';
  }

  /** Adds a part to those selected, or takes it from them. */
  mark(pointer: string): void {
    const marked = this.marked.includes(pointer)
      ? this.marked.filter((one) => one !== pointer)
      : [...this.marked, pointer];
    this.marked = marked;
    this.selected = marked.at(-1) ?? '';
  }

  ask(asking: Asking): void {
    if (!this.readonly || asking.kind === 'find') this.asking = asking;
  }

  /** Tells `follow` of every change from now on; gives back what ends that. */
  follow(follow: Follow): () => void {
    this.#followers = [...this.#followers, follow];
    return () => (this.#followers = this.#followers.filter((one) => one !== follow));
  }

  /** A picture of the tree as a `data:` address. */
  async picture(file: string): Promise<Asked<string>> {
    const { opened, session } = this;
    const asked = await session.ask((client, signal) =>
      opened.kind === 'draft'
        ? client.drafts.picture({ draftId: opened.full.draft.draftId, file }, { signal })
        : client.trees.picture({ revisionId: opened.revision.revisionId, file }, { signal }),
    );
    if (!asked.ok) return asked;
    return { ok: true, value: `data:${asked.value.media};base64,${asked.value.base64}` };
  }

  #make(entry: DraftEntry, technicianId?: string): boolean {
    this.refusal = '';
    this.notice = '';
    if (this.readonly)
      return this.#refuse('This is a published revision, to be read: begin a draft to edit it.');
    if (this.keeper?.isEnded === true)
      return this.#refuse('This draft has ended elsewhere: nothing further can be changed in it.');
    const edited = applyEntry(this.draft, entry);
    if (!edited.ok) return this.#refuse([edited.message, edited.help ?? ''].join(' ').trim());
    const misshapen = liveTree(edited.draft.document).blanks.find(({ rule }) => rule !== 'empty-text');
    if (misshapen !== undefined) return this.#refuse(`${misshapen.message} ${misshapen.help}`);
    this.draft = edited.draft;
    this.#keepInPlace();
    for (const follow of this.#followers) follow(edited.changes);
    this.keeper?.keep(entry, technicianId);
    return true;
  }

  #refuse(why: string): false {
    this.refusal = why;
    voice.say(why);
    return false;
  }

  /** What is gone is selected no more. */
  #keepInPlace(): void {
    this.marked = this.marked.filter((pointer) => this.has(pointer));
    if (!this.has(this.selected)) this.selected = this.marked.at(-1) ?? this.#around(this.selected);
    if (this.symptom === null || this.tree.symptoms[this.symptom] === undefined)
      this.symptom = Object.keys(this.tree.symptoms)[0] ?? null;
  }

  /** The part that something gone was in: its form stays while an entry of it, or what a check points at, comes and goes. */
  #around(pointer: string): string {
    const keys = keysOf(pointer);
    const size = keys.findLastIndex((_, index) => this.has(pointerOf(keys.slice(0, index))));
    return size < 2 ? '' : pointerOf(keys.slice(0, size));
  }

  /** Whether the document has a part at this pointer. */
  has(pointer: string): boolean {
    return hasPart(this.document, this.tree, pointer);
  }
}

/** What an edit is called has this many letters at most, so that it can stand on a button, and is recorded. */
const MOST_LETTERS = 120;

function shortened(what: string): string {
  return what.length > MOST_LETTERS ? `${what.slice(0, MOST_LETTERS - 1)}…` : what;
}

export const [useDesk, provideDesk] = createContext<EditorDesk>();
