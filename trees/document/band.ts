import type { Band, Test } from './tree.ts';

/** One result's band as written: from <= value < to, infinite where open. With `of`, a ratio to that test's reading. */
export interface ResultBand {
  readonly result: string;
  readonly from: number;
  readonly to: number;
  readonly of?: string;
}

/** One result's limits in the test's own SI unit, lowest first; the ratio already worked out. */
export interface ResultLimits {
  readonly result: string;
  readonly from: number;
  readonly to: number;
}

/** Why no band can be named. The first two are about the earlier reading that ratio bands refer to. */
export interface BandRefusal {
  readonly ok: false;
  readonly code: 'reference-missing' | 'reference-zero' | 'no-bands' | 'no-band';
  readonly message: string;
}

/** The bands of a measured test from lowest to highest; empty for a test that is answered by choosing. */
export function bandsOf(test: Test): readonly ResultBand[] {
  const known = sorted.get(test);
  if (known !== undefined) return known;
  const bands = sortedBands(test);
  sorted.set(test, bands);
  return bands;
}

// Every answer is sorted several times over on its way into the records, and a test's bands never change.
const sorted = new WeakMap<Test, readonly ResultBand[]>();

function sortedBands({ results }: Test): readonly ResultBand[] {
  return Object.entries(results)
    .flatMap(([result, { band }]) => (band === undefined ? [] : [resultBand(result, band)]))
    .sort((a, b) => (a.from === b.from ? compare(a.to, b.to) : compare(a.from, b.from)));
}

/** The test whose earlier reading the ratio bands refer to; undefined where the limits are plain values. */
export function referenceOf(test: Test): string | undefined {
  return bandsOf(test).find((band) => band.of !== undefined)?.of;
}

/**
 * The limits of a test's results in its own unit: as written, or times `reference` (the earlier reading's value, in its
 * SI unit) where the bands are ratios. Below zero the reference turns the order round, as on a negative rail.
 */
export function limitsOf(
  test: Test,
  reference?: number,
): { readonly ok: true; readonly limits: readonly ResultLimits[] } | BandRefusal {
  const bands = bandsOf(test);
  if (bands.length === 0) return refusal('no-bands', 'This test is answered by choosing, not by a reading.');
  if (bands.every((band) => band.of === undefined)) return { ok: true, limits: bands };
  if (reference === undefined) {
    return refusal(
      'reference-missing',
      'The bands are ratios to an earlier reading, which has not been taken.',
    );
  }
  if (reference === 0) {
    return refusal('reference-zero', 'The bands are ratios to an earlier reading, and that reading is zero.');
  }
  const scaled = bands.map(({ result, from, to }) => ({
    result,
    from: from * reference,
    to: to * reference,
  }));
  if (reference > 0) return { ok: true, limits: scaled };
  return {
    ok: true,
    limits: scaled.reverse().map(({ result, from, to }) => ({ result, from: to, to: from })),
  };
}

/**
 * The result whose band holds a reading (in the test's SI unit; `reference` as in {@link limitsOf}). Bands are half
 * open, so a value on a limit belongs to the band that starts there. `OL`, beyond the meter's range, is in the band
 * without an upper limit.
 */
export function resultOf(
  test: Test,
  value: number | 'OL',
  reference?: number,
): { readonly ok: true; readonly result: string } | BandRefusal {
  const found = limitsOf(test, reference);
  if (!found.ok) return found;
  const turnedRound = reference !== undefined && reference < 0 && referenceOf(test) !== undefined;
  const held = value === 'OL' ? bandsOf(test).at(-1) : bandHolding(found.limits, value, turnedRound);
  if (held === undefined) return refusal('no-band', `No band of this test holds ${String(value)}.`);
  return { ok: true, result: held.result };
}

function resultBand(result: string, { from = -Infinity, to = Infinity, of }: Band): ResultBand {
  return of === undefined ? { result, from, to } : { result, from, to, of };
}

function compare(a: number, b: number): number {
  return a < b ? -1 : a > b ? 1 : 0;
}

function bandHolding(
  limits: readonly ResultLimits[],
  value: number,
  turnedRound: boolean,
): ResultLimits | undefined {
  return limits.find(({ from, to }) =>
    turnedRound ? from < value && value <= to : from <= value && value < to,
  );
}

function refusal(code: BandRefusal['code'], message: string): BandRefusal {
  return { ok: false, code, message };
}
