import { lineOf, type Box, type Room } from './room.ts';
import { textWidth } from './text-width.ts';
import { wrapTitle, type TitleLine } from './wrap-title.ts';

/** Ems: from this width on titles stand beside the plot, below it above their row. */
const BESIDE = 46;

export interface RowWords {
  readonly title: string;
  /** What tells it from others of that title, softer: which tree it is of, say. */
  readonly soft?: string | undefined;
  /** Its figures. */
  readonly words: string;
  /** What is to be noted of it, in a word or two. */
  readonly note: string | null;
}

export interface LaidText {
  readonly x: number;
  /** The middle of its line. */
  readonly y: number;
  readonly words: string;
}

export interface LaidTitle extends LaidText, TitleLine {}

export interface LaidRow {
  readonly box: Box;
  readonly title: readonly LaidTitle[];
  readonly figures: LaidText;
  readonly note: LaidText | null;
  /** Where its mark stands. */
  readonly middle: number;
}

export interface Rows {
  readonly height: number;
  /** All rows' marks lie in it; axes stand at its top and bottom. */
  readonly plot: Box;
  readonly beside: boolean;
  readonly rows: readonly LaidRow[];
}

/**
 * Lays rows of a title, a mark on an axis that all share, and figures in words under each other. `above` and `below` are
 * what stands over and under the rows, in lines, and `names` what the names of the marks take over the first row's.
 */
export function layRows(
  texts: readonly RowWords[],
  room: Room,
  { above, below, names }: { readonly above: number; readonly below: number; readonly names: number },
): Rows {
  const beside = room.width >= BESIDE * room.em;
  const columns = beside
    ? columnsOf(texts, room)
    : { title: room.width, from: room.em, to: room.width - 2 * room.em };
  const top = (above + (beside ? names : 0)) * lineOf(room);
  const rows: LaidRow[] = [];
  for (const text of texts) {
    const from = rows.at(-1)?.box.bottom ?? top;
    rows.push(
      beside
        ? rowBeside(text, columns, from, room)
        : rowStacked(text, from, rows.length === 0 ? names : 0, room),
    );
  }
  const bottom = rows.at(-1)?.box.bottom ?? top;
  return {
    height: bottom + below * lineOf(room),
    plot: { left: columns.from, right: columns.to, top, bottom },
    beside,
    rows,
  };
}

interface Columns {
  readonly title: number;
  readonly from: number;
  readonly to: number;
}

function columnsOf(texts: readonly RowWords[], room: Room): Columns {
  const { em, width } = room;
  const widest = Math.max(
    ...texts.map(({ title, soft = '' }) => textWidth(`${title} ${soft}`, em, 'sans')),
    0,
  );
  const figures = Math.max(
    ...texts.map(({ words, note }) => Math.max(textWidth(words, em), textWidth(note ?? '', em, 'sans'))),
    0,
  );
  const title = Math.min(widest, 0.34 * width);
  const from = Math.ceil(title + 2 * em);
  return { title, from, to: Math.max(from + 10 * em, Math.floor(width - figures - 1.5 * em)) };
}

function rowBeside(
  { title, soft, words, note }: RowWords,
  columns: Columns,
  top: number,
  room: Room,
): LaidRow {
  const line = lineOf(room);
  const lines = wrapTitle(title, soft, columns.title, room.em);
  const height = Math.max(lines.length, note === null ? 1 : 2) * line + 0.6 * room.em;
  const middle = top + height / 2;
  const x = columns.to + 1.5 * room.em;
  return {
    box: { left: 0, right: room.width, top, bottom: top + height },
    title: lines.map((text, index) => ({
      ...text,
      x: 0,
      y: middle + (index - (lines.length - 1) / 2) * line,
    })),
    figures: { x, y: note === null ? middle : middle - line / 2, words },
    note: note === null ? null : { x, y: middle + line / 2, words: note },
    middle,
  };
}

/** Title, then figures and note, then the mark, with its names over it, under each other. */
function rowStacked({ title, soft, words, note }: RowWords, top: number, names: number, room: Room): LaidRow {
  const line = lineOf(room);
  const lines = wrapTitle(title, soft, room.width, room.em);
  const first = top + 0.3 * room.em + line / 2;
  const figures = first + lines.length * line;
  const after = textWidth(words, room.em) + room.em;
  const noteFits = note !== null && after + textWidth(note, room.em, 'sans') <= room.width;
  const last = note === null || noteFits ? figures : figures + line;
  const middle = last + names * line + 1.2 * room.em;
  return {
    box: { left: 0, right: room.width, top, bottom: middle + room.em },
    title: lines.map((text, index) => ({ ...text, x: 0, y: first + index * line })),
    figures: { x: 0, y: figures, words },
    note: note === null ? null : { x: noteFits ? after : 0, y: last, words: note },
    middle,
  };
}
