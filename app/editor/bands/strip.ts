import type { Test, Tree } from '../../../trees/document/index.ts';
import {
  likeliest,
  placeOf,
  resultNow,
  type Expected,
  type RecordedReading,
} from '../../../trees/limits/index.ts';
import type { Scale } from './scale.ts';

/** How a reading lies to what its finding makes likeliest: in that band, in another, or nothing is said. */
export type Fit = 'fits' | 'strays' | 'unsaid';

/** A mark on a row: where from the left and how high in its pile, in marks' widths. */
export interface Dot {
  readonly column: number;
  readonly level: number;
  readonly fit: Fit;
}

/** The readings of one confirmed finding. */
export interface StripRow {
  readonly finding: string;
  readonly readings: number;
  readonly counts: Readonly<Record<Fit, number>>;
  /** Of the finite readings, in the unit of the limits; null where there is none. */
  readonly median: number | null;
  readonly least: number | null;
  readonly most: number | null;
  /** Readings of `OL`, beyond the line; and those of them that stray. */
  readonly overloads: { readonly readings: number; readonly strays: number };
  readonly dots: readonly Dot[];
}

export interface Strip {
  readonly rows: readonly StripRow[];
  /** Readings that one mark stands for, at most. */
  readonly each: number;
  /** Whether any reading is `OL`. */
  readonly overloaded: boolean;
  /** Readings that cannot be placed: ratios without their earlier reading. */
  readonly unplaced: number;
  /** Readings beyond the ends of the line, drawn at its ends. */
  readonly beyond: number;
}

/** Marks in one pile at most. */
const HIGHEST = 6;

/**
 * The readings behind a test, a row for each confirmed finding, lowest median first, those that say nothing of the test last. The line is so many `columns` wide;
 * `test` has the bands by which a reading fits.
 */
export function stripOf(
  test: Test,
  expected: Expected,
  readings: readonly RecordedReading[],
  scale: Scale,
  columns: number,
): Strip {
  const fitOf = fits(test, expected);
  const placed = readings.flatMap((reading) => {
    const at = placeOf(test, reading);
    return at === null ? [] : [{ at, finding: reading.finding, fit: fitOf(reading) }];
  });
  const byFinding = Map.groupBy(placed, ({ finding }) => finding);
  const piled = [...byFinding].map(([finding, all]) => ({
    finding,
    all,
    piles: pilesOf(all, scale, columns),
  }));
  const tallest = Math.max(1, ...piled.flatMap(({ piles }) => piles.map(([, pile]) => pile.length)));
  const each = Math.ceil(tallest / HIGHEST);
  const rows = piled.map(({ finding, all, piles }) => rowOf(finding, all, piles, each));
  return {
    rows: rows.toSorted(bySayingThenMedian),
    each,
    overloaded: placed.some(({ at }) => at === Infinity),
    unplaced: readings.length - placed.length,
    beyond: placed.filter(({ at }) => Number.isFinite(at) && (at < scale.low || at > scale.high)).length,
  };
}

interface Placed {
  readonly at: number;
  readonly finding: string;
  readonly fit: Fit;
}

function fits(test: Test, expected: Expected): (reading: RecordedReading) => Fit {
  const wanted = new Map([...expected.keys()].map((finding) => [finding, likeliest(expected, finding)]));
  return (reading) => {
    const results = wanted.get(reading.finding) ?? [];
    if (results.length === 0) return 'unsaid';
    return results.includes(resultNow(test, reading)) ? 'fits' : 'strays';
  };
}

type Pile = readonly [column: number, pile: readonly Placed[]];

function pilesOf(placed: readonly Placed[], scale: Scale, columns: number): readonly Pile[] {
  const finite = placed.filter(({ at }) => Number.isFinite(at));
  return [...Map.groupBy(finite, ({ at }) => Math.round(scale.place(at) * columns))];
}

function rowOf(finding: string, all: readonly Placed[], piles: readonly Pile[], each: number): StripRow {
  const [finite, over] = [all.filter(({ at }) => at < Infinity), all.filter(({ at }) => at === Infinity)];
  const values = finite.map(({ at }) => at).toSorted((a, b) => a - b);
  return {
    finding,
    readings: all.length,
    counts: { fits: countOf(all, 'fits'), strays: countOf(all, 'strays'), unsaid: countOf(all, 'unsaid') },
    median: values[Math.floor((values.length - 1) / 2)] ?? null,
    least: values[0] ?? null,
    most: values.at(-1) ?? null,
    overloads: { readings: over.length, strays: countOf(over, 'strays') },
    dots: piles.flatMap(([column, pile]) => dotsOf(column, pile, each)),
  };
}

/** Findings that say nothing of the test come last. */
function bySayingThenMedian(a: StripRow, b: StripRow): number {
  const saying = Number(a.counts.unsaid > 0) - Number(b.counts.unsaid > 0);
  return saying || (a.median ?? Infinity) - (b.median ?? Infinity) || b.readings - a.readings;
}

function countOf(placed: readonly Placed[], fit: Fit): number {
  return placed.filter((one) => one.fit === fit).length;
}

/** A pile's marks, those that stray on top; each mark stands for up to `each` readings of one kind. */
function dotsOf(column: number, pile: readonly Placed[], each: number): readonly Dot[] {
  let level = 0;
  return FITS.flatMap((fit) => {
    const marks = Math.ceil(countOf(pile, fit) / each);
    return Array.from({ length: marks }, () => ({ column, level: level++, fit }));
  });
}

const FITS: readonly Fit[] = ['fits', 'unsaid', 'strays'];

/** The title of a finding; one that the tree does not have is named by its id. */
export function findingTitle(tree: Tree, finding: string): string {
  if (finding === 'unlisted') return 'Not in this tree';
  return Object.hasOwn(tree.findings, finding) ? (tree.findings[finding]?.title ?? finding) : finding;
}
