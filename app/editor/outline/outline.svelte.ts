import { SvelteSet } from 'svelte/reactivity';
import { pathOf, pointerOf } from '../../../trees/document/index.ts';
import { exchangeWithAfter, exchangeWithBefore, type Exchange } from '../../../trees/edit/index.ts';
import type { EditorDesk } from '../desk/editor-desk.svelte.ts';
import { goPointer, partOf } from '../desk/places.ts';
import { voice } from '../../shell/index.ts';
import { HEADINGS, outlineRows, type Heading, type OutlineRow } from './outline-rows.ts';

/** What the outline is asked to do with clips and copies, which concern the workspace. */
export interface OutlineActs {
  readonly copy: (pointers: readonly string[]) => void;
  readonly cut: (pointers: readonly string[]) => void;
  readonly paste: () => void;
  readonly duplicate: (pointers: readonly string[]) => void;
  /** Goes into the form of what is selected. */
  readonly enter: () => void;
}

/** The outline: which lines are unfolded, which one the keys are at, and what each key does to it. */
export class Outline {
  readonly #desk: EditorDesk;
  readonly #acts: OutlineActs;
  readonly unfolded = new SvelteSet<string>(['#symptoms', '#tests', '#findings']);
  readonly rows: readonly OutlineRow[] = $derived.by(() => outlineRows(this.#desk.tree, this.unfolded));
  /** Which line that was when the keys came to it. */
  #last = { index: 0, level: 1 };
  /** The id of the line that the keys are at. */
  at = $state('');
  readonly index: number = $derived(
    Math.max(
      0,
      this.rows.findIndex(({ id }) => id === this.at),
    ),
  );
  readonly row: OutlineRow | undefined = $derived(this.rows[this.index]);
  /** What is done to parts is done to these: on a heading to none, whatever was selected before. */
  readonly chosen: readonly string[] = $derived.by(() => {
    const { row } = this;
    if (row === undefined || row.kind === 'heading' || row.kind === 'tree') return [];
    return this.#desk.marked.length > 0 ? this.#desk.marked : [row.id];
  });

  constructor(desk: EditorDesk, acts: OutlineActs) {
    this.#desk = desk;
    this.#acts = acts;
  }

  /** Unfolds what a part is under, and goes to its line; where the line that the keys were at is gone, to the one beside it. */
  show(pointer: string): void {
    if (pointer === '' && this.#isGone()) this.go(this.#beside());
    else this.#showPart(pointer);
    this.#note();
  }

  #showPart(pointer: string): void {
    const path = pathOf(pointer);
    if (path.length > 0) this.unfolded.add(`#${path[0] ?? ''}`);
    for (const length of [2, 4])
      if (path.length > length) this.unfolded.add(pointerOf(path.slice(0, length)));
    this.at =
      [6, 4, 2, 0]
        .filter((length) => length <= path.length)
        .map((length) => pointerOf(path.slice(0, length)))
        .find((id) => this.rows.some((row) => row.id === id)) ?? '';
  }

  /** Goes to a line and selects what it stands for. */
  go(row: OutlineRow | undefined, adding = false): void {
    if (row === undefined) return;
    this.at = row.id;
    this.#note();
    this.#desk.refusal = '';
    if (row.kind === 'heading') return;
    if (adding) this.#desk.mark(row.id);
    else this.#desk.select(row.id);
  }

  fold(row: OutlineRow): void {
    if (row.open === true) this.unfolded.delete(row.id);
    else if (row.open === false) this.unfolded.add(row.id);
  }

  #isGone(): boolean {
    return !this.at.startsWith('#') && !this.#desk.has(this.at);
  }

  /** The line that has come to where one went from, or the one before it where that was the last of its like. */
  #beside(): OutlineRow | undefined {
    const { index, level } = this.#last;
    const next = this.rows[index];
    return next?.level === level ? next : this.rows[Math.min(index, this.rows.length) - 1];
  }

  #note(): void {
    this.#last = { index: this.index, level: this.row?.level ?? 1 };
  }

  /** Does what a key stands for here; false where it stands for nothing. */
  press(key: string, page: number): boolean {
    const act = this.#keys(page)[key];
    if (act === undefined) return false;
    act();
    return true;
  }

  /** What can be added where the keys are, in words; null where nothing can. */
  get adds(): { readonly words: string; readonly add: () => void } | null {
    const { row } = this;
    if (row === undefined || this.#desk.readonly) return null;
    const part = partOf(row.id);
    if (row.kind === 'branch' && part.kind === 'step' && part.result !== undefined) {
      const branch = { step: part.step, result: part.result };
      return {
        words: 'Lead to…',
        add: () => this.#desk.ask({ kind: 'lead', symptom: part.symptom, branch }),
      };
    }
    if (part.kind === 'symptom' || part.kind === 'step') {
      const { symptom } = part;
      return { words: 'Add a step…', add: () => this.#desk.ask({ kind: 'lead', symptom, branch: null }) };
    }
    const heading = row.kind === 'heading' ? row.id.slice(1) : (pathOf(row.id)[0] ?? 'symptoms');
    const what = HEADINGS[heading as Heading].adds;
    return { words: ADD_WORDS[what], add: () => this.#desk.ask({ kind: 'add', what }) };
  }

  /** Moves the part at the keys before its neighbour, or behind it; a step on its path. Where that cannot be, it is said why. */
  shift(by: 1 | -1): void {
    const { row } = this;
    if (row === undefined || this.#desk.readonly) return;
    const why = this.stays(by);
    if (why !== '') return this.#say(`“${row.words}” is not moved ${by < 0 ? 'up' : 'down'}: ${why}.`);
    if (row.kind === 'step') return this.#exchange(row, by);
    const at = this.#place(row) + by;
    const path = pathOf(row.id).map((key, depth) =>
      row.kind === 'interlock' && depth === 1 ? Number(key) : key,
    );
    this.#desk.edit(`Move ${row.words}`, [{ do: 'move', path, at }]);
    if (row.kind === 'interlock') this.at = pointerOf(['interlocks', at]);
  }

  /** Why the part at the keys is not moved up, or down, as the end of a sentence; empty where it can be. */
  stays(by: 1 | -1): string {
    const { row } = this;
    if (row === undefined || row.kind === 'heading' || row.kind === 'tree') return 'it has its place';
    if (row.kind === 'branch') return 'branches stand in the order of their test’s results';
    if (row.kind === 'step') {
      const exchange = this.#exchanged(row.id, by);
      return exchange.ok
        ? ''
        : `${exchange.because}. Lead branches elsewhere, or have a better order proposed`;
    }
    if (by < 0) return row.place > 1 ? '' : 'it is the first already';
    return row.place < row.of ? '' : 'it is the last already';
  }

  #exchanged(id: string, by: 1 | -1): Exchange {
    const [, symptom = '', , step = ''] = pathOf(id);
    const { document } = this.#desk;
    return by < 0 ? exchangeWithBefore(document, symptom, step) : exchangeWithAfter(document, symptom, step);
  }

  #exchange({ id, words }: OutlineRow, by: 1 | -1): void {
    const exchange = this.#exchanged(id, by);
    if (!exchange.ok || !this.#desk.edit(`Move step ${words}`, exchange.changes)) return;
    voice.say(
      `Moved ${by < 0 ? 'up' : 'down'}: it is ${this.row?.words ?? words} now. Weights stay as they were.`,
    );
  }

  #place({ place }: OutlineRow): number {
    return place - 1;
  }

  #keys(page: number): Readonly<Record<string, () => void>> {
    const { rows, index } = this;
    const by = (step: number) => () => this.go(rows[Math.min(Math.max(index + step, 0), rows.length - 1)]);
    return {
      ArrowDown: by(1),
      ArrowUp: by(-1),
      PageDown: by(page),
      PageUp: by(-page),
      Home: by(-Infinity),
      End: by(rows.length),
      ArrowRight: () => this.#inward(),
      ArrowLeft: () => this.#outward(),
      ' ': () => this.go(this.row, true),
      Enter: () => this.#enter(),
      Insert: () => this.adds?.add(),
      '+': () => this.adds?.add(),
      Delete: () => this.#withChosen('delete', (pointers) => this.#desk.ask({ kind: 'remove', pointers })),
      'Ctrl+c': () => this.#withChosen('copy', (pointers) => this.#acts.copy(pointers)),
      'Ctrl+x': () => this.#withChosen('cut', (pointers) => this.#acts.cut(pointers)),
      'Ctrl+v': () => this.#acts.paste(),
      'Ctrl+d': () => this.#withChosen('duplicate', (pointers) => this.#acts.duplicate(pointers)),
      'Alt+ArrowUp': () => this.shift(-1),
      'Alt+ArrowDown': () => this.shift(1),
    };
  }

  /** Does something to what is chosen; where the keys are at nothing that it can be done to, that is said. */
  #withChosen(verb: string, act: (pointers: readonly string[]) => void): void {
    const { chosen, row } = this;
    if (chosen.length > 0) act(chosen);
    else if (row?.kind === 'heading')
      this.#say(`“${row.words}” is a heading: there is nothing to ${verb} here but what is under it.`);
    else this.#say(`There is no part chosen to ${verb}: this is the tree itself.`);
  }

  #say(why: string): void {
    this.#desk.refusal = why;
    voice.say(why);
  }

  #inward(): void {
    const { row, rows, index } = this;
    if (row?.open === false) this.unfolded.add(row.id);
    else if (row?.open === true) this.go(rows[index + 1]);
    else if (row?.go !== undefined) this.#follow(row);
  }

  #outward(): void {
    const { row, rows, index } = this;
    if (row?.open === true) this.unfolded.delete(row.id);
    else this.go(rows.slice(0, index).findLast(({ level }) => level < (row?.level ?? 1)));
  }

  /** From a branch to where it leads. */
  #follow({ id, go }: OutlineRow): void {
    const part = partOf(id);
    const pointer = part.kind === 'step' && go !== undefined ? goPointer(go, part.symptom) : null;
    if (pointer === null || !this.#desk.has(pointer)) return;
    this.#desk.select(pointer);
    this.show(pointer);
  }

  #enter(): void {
    const { row } = this;
    if (row?.kind === 'heading') this.fold(row);
    else if (row?.kind === 'branch') this.adds?.add();
    else this.#acts.enter();
  }
}

const ADD_WORDS = {
  symptom: 'Add a symptom…',
  test: 'Add a test…',
  finding: 'Add a finding…',
  axis: 'Add bench states…',
  interlock: 'Add an interlock…',
} as const;
