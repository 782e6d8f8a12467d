import type { Band, Test } from '../document/index.ts';

/** A test's results as authored, in order; what the functions of this room change. */
export type Results = Test['results'];

/** A stretch of the line; ends that are open are infinite. From <= place < to, as a band. */
export interface Stretch {
  readonly from: number;
  readonly to: number;
}

/** A result's band on the line. */
export interface LaidBand extends Stretch {
  readonly result: string;
  /** False where it holds no reading at all: its `from` is not below its `to`. */
  readonly holds: boolean;
}

/**
 * A place where bands end and begin. In order, one ends where the other begins; beside a gap or an overlap there is only one
 * of the two.
 */
export interface Limit {
  readonly at: number;
  /** Results whose band ends here, and those whose band begins here. */
  readonly ends: readonly string[];
  readonly starts: readonly string[];
}

/** A stretch that no band holds, with the bands that it lies between; null at the ends of the line. */
export interface Gap extends Stretch {
  readonly kind: 'gap';
  readonly below: string | null;
  readonly above: string | null;
}

/** A stretch that two bands hold; `below` is the one that begins lower, or as authored first where both begin together. */
export interface Overlap extends Stretch {
  readonly kind: 'overlap';
  readonly below: string;
  readonly above: string;
}

/** How a test's bands lie on the line, sound or not. */
export interface BandLayout {
  /** In the order of the results. */
  readonly bands: readonly LaidBand[];
  /** Results that have no band. */
  readonly without: readonly string[];
  /** Lowest first. */
  readonly limits: readonly Limit[];
  /** Lowest first. */
  readonly faults: readonly (Gap | Overlap)[];
  /** The tests that the bands are ratios to; undefined for plain values. More than one: they cannot stand on one line. */
  readonly references: readonly (string | undefined)[];
}

/** Lays the bands of a test on the line as they are authored, and finds its gaps and overlaps. */
export function layoutBands(results: Results): BandLayout {
  const entries = Object.entries(results);
  const banded = entries.flatMap(([result, { band }]) => (band === undefined ? [] : [{ result, band }]));
  const bands = banded.map(({ result, band }) => laid(result, band));
  const faults = banded.length === 0 ? [] : [...gapsOf(bands), ...overlapsOf(bands)];
  return {
    bands,
    without: entries.filter(([, { band }]) => band === undefined).map(([result]) => result),
    limits: limitsOn(bands),
    faults: faults.toSorted((a, b) => order(a.from, b.from) || order(a.to, b.to)),
    references: [...new Set(banded.map(({ band }) => band.of))],
  };
}

/** The bands that hold anything, lowest first. */
export function ascending(bands: readonly LaidBand[]): readonly LaidBand[] {
  return bands.filter(({ holds }) => holds).toSorted((a, b) => order(a.from, b.from) || order(a.to, b.to));
}

function laid(result: string, { from = -Infinity, to = Infinity }: Band): LaidBand {
  return { result, from, to, holds: from < to };
}

function limitsOn(bands: readonly LaidBand[]): readonly Limit[] {
  const places = [...new Set(bands.flatMap(({ from, to }) => [from, to]))].filter(Number.isFinite);
  return places.toSorted(order).map((at) => ({
    at,
    ends: bands.filter(({ to }) => to === at).map(({ result }) => result),
    starts: bands.filter(({ from }) => from === at).map(({ result }) => result),
  }));
}

/** The line from end to end with the bands taken out. */
function gapsOf(bands: readonly LaidBand[]): readonly Gap[] {
  const gaps: Gap[] = [];
  let reached = -Infinity;
  let last: string | null = null;
  for (const { result, from, to } of ascending(bands)) {
    if (from > reached) gaps.push({ kind: 'gap', from: reached, to: from, below: last, above: result });
    if (to <= reached) continue;
    reached = to;
    last = result;
  }
  if (reached < Infinity) gaps.push({ kind: 'gap', from: reached, to: Infinity, below: last, above: null });
  return gaps;
}

function overlapsOf(bands: readonly LaidBand[]): readonly Overlap[] {
  const holding = ascending(bands);
  return holding.flatMap((below, index) =>
    holding.slice(index + 1).flatMap((above): readonly Overlap[] => {
      const from = Math.max(below.from, above.from);
      const to = Math.min(below.to, above.to);
      return from < to ? [{ kind: 'overlap', from, to, below: below.result, above: above.result }] : [];
    }),
  );
}

function order(a: number, b: number): number {
  return a < b ? -1 : a > b ? 1 : 0;
}
