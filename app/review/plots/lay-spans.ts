import { scaleLinear } from 'd3-scale';
import { axisEnd, ticksAlong } from './axes.ts';
import { layRows, type LaidRow, type Rows, type RowWords } from './lay-rows.ts';
import { nameMarks, type MarkName } from './name-marks.ts';
import { lineOf, type Room, type Tick } from './room.ts';

/** A row's marks by their values on the axis; null is not drawn. */
export interface Span extends RowWords {
  readonly at: number | null;
  readonly low: number | null;
  readonly high: number | null;
  /** A second value that is set beside the first: what the author gave, the tree expects, or was before. */
  readonly other: number | null;
}

export interface LaidSpan {
  readonly row: LaidRow;
  readonly at: number | null;
  readonly low: number | null;
  readonly high: number | null;
  readonly other: number | null;
}

export interface SpansLayout extends Rows {
  readonly ticks: readonly Tick[];
  readonly spans: readonly LaidSpan[];
  readonly names: readonly MarkName[];
  /** Where the axis stands above the rows too, as they are many; else null. */
  readonly axisAbove: number | null;
}

export interface SpanAxis {
  /** The axis' end; null for the largest value there is. */
  readonly end: number | null;
  readonly words: (value: number) => string;
  /** What is measured along it; null where its words say so. */
  readonly title: string | null;
  /** What the marks are called; a mark that no row has needs no name. */
  readonly names: { readonly at: string; readonly other: string };
}

/** Rows from which on the axis is wanted at both ends. */
const MANY = 10;
/** Lines that names of marks take. */
const NAMES = 1.5;

/** Lays out rows of a value with its span on one axis from 0. */
export function laySpans(spans: readonly Span[], axis: SpanAxis, room: Room): SpansLayout {
  const axisAbove = spans.length > MANY ? 1.4 * lineOf(room) : null;
  const hasOther = spans.some(({ other }) => other !== null);
  const above = axisAbove === null ? 0.2 : 1.6;
  const rows = layRows(spans, room, {
    above,
    below: axis.title === null ? 1.6 : 2.8,
    names: hasOther ? NAMES : 0,
  });
  const values = spans.flatMap(({ at, high, other }) => [at ?? 0, high ?? 0, other ?? 0]);
  const end = axis.end ?? axisEnd(Math.max(0, ...values));
  const pixels = [rows.plot.left, rows.plot.right] as const;
  const scale = scaleLinear([0, end], pixels);
  const place = (value: number | null): number | null =>
    value === null ? null : scale(Math.min(value, end));
  const laid = rows.rows.flatMap((row, index) => {
    const span = spans[index];
    if (span === undefined) return [];
    const { at, low, high, other } = span;
    return [{ row, at: place(at), low: place(low), high: place(high), other: place(other) }];
  });
  return {
    ...rows,
    ticks: ticksAlong([0, end], pixels, axis.words, room.em),
    spans: laid,
    names: hasOther ? namesOf(laid, axis, rows.beside, room) : [],
    axisAbove,
  };
}

/** Over the first row, of the marks it has. */
function namesOf(
  laid: readonly LaidSpan[],
  { names }: SpanAxis,
  beside: boolean,
  room: Room,
): readonly MarkName[] {
  const first = laid[0];
  if (first === undefined) return [];
  const marks = [
    ...(first.at === null ? [] : [{ at: first.at, words: names.at }]),
    ...(first.other === null ? [] : [{ at: first.other, words: names.other }]),
  ];
  const over = beside ? first.row.box.top : first.row.middle - 0.8 * room.em;
  return nameMarks(marks, over - (NAMES - 0.5) * lineOf(room), room);
}
