import { own, type Test } from '../../../trees/document/index.ts';
import { drop, expectCell, setCell, type CellValue, type ExpectCell } from '../../../trees/edit/index.ts';
import type { EditorDesk } from '../desk/editor-desk.svelte.ts';
import { titled } from '../desk/part-words.ts';

/** A place in the table. Column 0 is the symptom’s weight; row 0 is the head, as is column -1. */
export interface GridPlace {
  readonly row: number;
  readonly column: number;
}

/** How large the table’s cells, its heads and its side are, in pixels; the page’s layout is measured into it. */
export interface GridSize {
  row: number;
  column: number;
  head: number;
  side: number;
}

/** The table of findings against tests: which rows and columns are shown, where the keys are, and what they set. */
export class ExpectGrid {
  readonly #desk: EditorDesk;
  findingFilter = $state('');
  testFilter = $state('');
  #at = $state.raw<GridPlace>({ row: 0, column: 1 });
  /** A cell’s value that was copied. */
  #copied: CellValue | undefined = undefined;
  /** The cell that is being written in its own dialog. */
  writing = $state.raw<GridPlace | null>(null);

  readonly findings: readonly string[] = $derived.by(() =>
    named(this.#desk.tree.findings, this.findingFilter),
  );
  readonly tests: readonly string[] = $derived.by(() => named(this.#desk.tree.tests, this.testFilter));

  /** Where the keys are, within what is shown. */
  readonly at: GridPlace = $derived(this.#within(this.#at));

  constructor(desk: EditorDesk) {
    this.#desk = desk;
  }

  finding(row: number): string {
    return this.findings[row] ?? '';
  }

  test(column: number): { readonly id: string; readonly test: Test } | null {
    const id = this.tests[column - 1];
    const test = id === undefined ? undefined : own(this.#desk.tree.tests, id);
    return id === undefined || test === undefined ? null : { id, test };
  }

  cell({ row, column }: GridPlace): ExpectCell {
    const test = this.test(column);
    return test === null ? { kind: 'unknown' } : expectCell(this.#desk.tree, this.finding(row), test.id);
  }

  /** The weight that the shown symptom’s author gives a finding; null where the paths’ branches say it. */
  weight(row: number): number | null {
    const symptom = own(this.#desk.tree.symptoms, this.#desk.symptom ?? '');
    return own(symptom?.weights ?? {}, this.finding(row)) ?? null;
  }

  /** Goes to a place, or the nearest that there is. */
  go(place: GridPlace): void {
    this.#at = this.#within(place);
  }

  set(place: GridPlace, value: CellValue): void {
    const test = this.test(place.column);
    const finding = this.finding(place.row);
    if (test === null || finding === '') return;
    const title = titled(this.#desk.tree.findings[finding]?.title);
    const what = `What ${title} makes ${titled(test.test.title)} give`;
    this.#desk.edit(what, setCell(this.#desk.document, finding, test.id, value));
  }

  /** Does what a key stands for; false where it stands for nothing. */
  press(key: string, page: GridPlace): boolean {
    const { row, column } = this.at;
    const digit = /^[1-9]$/.test(key) ? Number(key) : 0;
    if (digit > 0) return this.#setNumber(digit);
    const act: (() => void) | undefined = {
      ArrowUp: () => this.go({ row: row - 1, column }),
      ArrowDown: () => this.go({ row: row + 1, column }),
      ArrowLeft: () => this.go({ row, column: column - 1 }),
      ArrowRight: () => this.go({ row, column: column + 1 }),
      PageUp: () => this.go({ row: row - page.row, column }),
      PageDown: () => this.go({ row: row + page.row, column }),
      Home: () => this.go({ row, column: 0 }),
      End: () => this.go({ row, column: this.tests.length }),
      'Ctrl+Home': () => this.go({ row: 0, column: 0 }),
      'Ctrl+End': () => this.go({ row: this.findings.length, column: this.tests.length }),
      '0': () => this.#clear(),
      Delete: () => this.#clear(),
      Enter: () => this.write(this.at),
      'Ctrl+c': () => this.#copy(),
      'Ctrl+v': () => this.#paste(),
    }[key];
    act?.();
    return act !== undefined;
  }

  /** Opens a cell to be written. */
  write(place: GridPlace): void {
    if (!this.#desk.readonly && this.finding(place.row) !== '') this.writing = place;
  }

  #within({ row, column }: GridPlace): GridPlace {
    return {
      row: Math.min(Math.max(row, 0), Math.max(0, this.findings.length - 1)),
      column: Math.min(Math.max(column, 0), this.tests.length),
    };
  }

  #setNumber(digit: number): boolean {
    const test = this.test(this.at.column);
    const result = Object.keys(test?.test.results ?? {})[digit - 1];
    if (result === undefined) return false;
    this.set(this.at, result);
    return true;
  }

  #clear(): void {
    if (this.at.column > 0) return this.set(this.at, null);
    const { symptom, document } = this.#desk;
    const path = ['symptoms', symptom ?? '', 'weights', this.finding(this.at.row)];
    this.#desk.edit('Weight of a finding', drop(document, path));
  }

  #copy(): void {
    const cell = this.cell(this.at);
    const results = Object.keys(this.test(this.at.column)?.test.results ?? {});
    this.#copied = cell.kind === 'unknown' ? null : valueOf(results, cell.shares);
  }

  /** A copied value goes where the test has the same results. */
  #paste(): void {
    const value = this.#copied;
    const results = Object.keys(this.test(this.at.column)?.test.results ?? {});
    if (value === undefined) return;
    const named = value === null ? [] : typeof value === 'string' ? [value] : Object.keys(value);
    if (named.every((result) => results.includes(result))) this.set(this.at, value);
  }
}

/** Shares as the document writes them: the result’s id where there is only one, else those that are not nothing. */
export function valueOf(results: readonly string[], shares: readonly number[]): CellValue {
  const given = results.flatMap((result, place) => {
    const share = shares[place] ?? 0;
    return share > 0 ? [[result, share] as const] : [];
  });
  const [only] = given;
  return given.length === 1 && only !== undefined ? only[0] : Object.fromEntries(given);
}

function named(
  parts: Readonly<Record<string, { readonly title: string }>>,
  filter: string,
): readonly string[] {
  const wanted = filter.trim().toLowerCase();
  return Object.keys(parts).filter((id) => (parts[id]?.title ?? '').toLowerCase().includes(wanted));
}
