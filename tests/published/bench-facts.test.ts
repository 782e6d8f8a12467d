import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { bandsOf, destination, readTree, resultOf } from '../../trees/document/index.ts';

const library = new URL('../../trees/library/', import.meta.url);
const { tree } = readTree(readFileSync(new URL('kw1-panel.tree.json', library)));
if (tree === null) throw new Error('The tree of the refitted panel cannot be read.');
const { tests, findings, symptoms } = tree;

/** The result a reading gives by the tree's own bands; for a ratio, `reference` is the earlier reading. */
function resultAt(id: string, reading: number | 'OL', reference?: number): string {
  const test = tests[id];
  if (test === undefined) throw new Error(`The tree has no test ${id}.`);
  const found = resultOf(test, reading, reference);
  return found.ok ? found.result : found.code;
}

/** Limits of one result's band, in the test's unit or as a ratio. */
function band(id: string, result: string): { readonly from: number; readonly to: number } {
  const found = tests[id] && bandsOf(tests[id]).find((one) => one.result === result);
  if (found === undefined) throw new Error(`${id} has no band for ${result}.`);
  return found;
}

/** What a finding's `expects` says of one result: its share, or undefined where it says nothing of the test. */
function share(finding: string, test: string, result: string): number | undefined {
  const expected = findings[finding]?.expects[test];
  if (expected === undefined) return undefined;
  return typeof expected === 'string' ? Number(expected === result) : (expected[result] ?? 0);
}

/** The branches of every step that makes a test, as `[symptom, result, go]`. */
function branchesOf(test: string): readonly (readonly [string, string, string])[] {
  return Object.entries(symptoms).flatMap(([symptom, { steps }]) =>
    Object.values(steps)
      .filter((step) => step.test === test)
      .flatMap(({ then }) => Object.entries(then).map(([result, { go }]) => [symptom, result, go] as const)),
  );
}

/** The tests still asked after a branch, on any walk from it. */
function testsAfter(symptom: string, go: string, found = new Set<string>()): ReadonlySet<string> {
  const to = destination(go, symptom);
  if (to.kind !== 'step') return found;
  const step = symptoms[to.symptom]?.steps[to.step];
  if (step === undefined) throw new Error(`${to.symptom} has no step ${to.step}.`);
  found.add(step.test);
  for (const branch of Object.values(step.then)) testsAfter(to.symptom, branch.go, found);
  return found;
}

// The facts of this block are common practice, no source.
describe('facts of the bench in the tree of the refitted panel', () => {
  it('takes a dimmer wheel at its end stop for good only under 50 ohm across its two pins', () => {
    for (const ohms of [0, 20, 49.9]) expect(resultAt('dimmer-end', ohms)).toBe('end');
    expect(resultAt('dimmer-end', 50)).not.toBe('end');
    expect(resultAt('dimmer-end', 'OL')).toBe('open');
    expect(tests['dimmer-end']?.picture?.points).toHaveLength(2);
  });

  it('lets only the ground pad of the ribbon row show continuity to ground on a sound unit', () => {
    const [sound] = Object.entries(tests['row-ground']?.results ?? {});
    expect(sound).toEqual(['only-ground', { title: 'Only P12 beeps' }]);
    const svg = readFileSync(new URL('kw1-driver.svg', library), 'utf8');
    const [, padX, width] = /data-point="P12" x="(\d+)" y="\d+" width="(\d+)"/.exec(svg) ?? [];
    const middle = String(Number(padX) + Number(width) / 2);
    const named = [...svg.matchAll(/<text x="(\d+)"[^>]*>([^<]+)</g)].filter(([, x]) => x === middle);
    expect(named.map(([, , words]) => words)).toEqual(expect.arrayContaining(['P12', 'GND']));
  });

  it('expects another pad to beep from each finding that always ties the 3.3 V line of the row to ground', () => {
    const shorted = Object.keys(findings).filter((id) => share(id, 'rail33-resistance', 'clear') === 0);
    expect(shorted).toEqual(expect.arrayContaining(['ribbon-bridge', 'ceramic-cracked']));
    for (const id of shorted) expect(share(id, 'row-ground', 'extra'), id).toBe(1);
  });

  it('asks no more for sync, clock or reset once a border is seen, since a border means valid sync', () => {
    const seen = branchesOf('picture').filter(([, result]) => result === 'border-only');
    expect(seen.length).toBeGreaterThan(0);
    for (const [symptom, , go] of seen) {
      const after = testsAfter(symptom, go);
      for (const test of ['sync-level', 'clock', 'reset']) expect(after, go).not.toContain(test);
    }
  });

  it('expects no border from a finding that leaves no sync at all', () => {
    const silent = Object.keys(findings).filter((id) => share(id, 'sync-level', 'missing') === 1);
    expect(silent).toEqual(expect.arrayContaining(['clock-missing', 'reset-stuck']));
    for (const id of silent) expect(share(id, 'picture', 'border-only') ?? 0, id).toBe(0);
  });

  it('takes a protection light that comes and clears by itself for a short that has come and gone', () => {
    const cleared = branchesOf('indicator-watch').filter(([, result]) => result === 'cleared');
    expect(cleared.map(([, , go]) => go)).toEqual(['finding:short-come-and-gone']);
    const expecting = Object.keys(findings).filter(
      (id) => (share(id, 'indicator-watch', 'cleared') ?? 0) > 0,
    );
    expect(expecting).toEqual(['short-come-and-gone']);
  });

  it('takes an 8 ohm speaker of 6.5 to 7.5 ohm for good, and a broken coil not', () => {
    for (const ohms of [6.5, 7, 7.5]) expect(resultAt('speaker-ohms', ohms)).toBe('good');
    expect(resultAt('speaker-ohms', 'OL')).toBe('open');
  });

  it('takes six white LEDs of 2.8 to 3.3 V each for a good backlight string, to 1 mV', () => {
    expect(band('backlight-volts', 'good').from).toBeCloseTo(6 * 2.8, 3);
    expect(band('backlight-volts', 'good').to).toBeCloseTo(6 * 3.3, 3);
  });

  it('takes a fuse for good only under 1 ohm, leads taken off', () => {
    expect(band('fuse-ohms', 'good').to).toBe(1);
    expect(tests['fuse-ohms']?.ask).toMatch(/Take off what the leads read/);
  });

  it('allows 2 % of drop from the cells to the board, as a ratio to the earlier reading', () => {
    expect(resultAt('board-supply', 5.5, 5.6)).toBe('good');
    expect(resultAt('board-supply', 5.4, 5.6)).toBe('fallen');
    expect(resultAt('board-supply', 5.5)).toBe('reference-missing');
  });

  it('keeps no reading of a beep', () => {
    const beeps = Object.values(tests).filter(({ instrument }) => instrument === 'continuity');
    expect(beeps.length).toBeGreaterThan(0);
    for (const { reading } of beeps) expect(reading).toBeUndefined();
  });
});

// IEC 60086-2, LR6: 1.5 V nominal, discharged at 0.9 V. Basis: second-hand; both values stand in data sheets of makers
// of LR6 cells that refer to the standard (0.9 V as the end point of discharge into 43 ohm); the standard not seen.
describe('values of four LR6 cells in the tree of the refitted panel', () => {
  const LR6 = { nominal: 1.5, end: 0.9 };

  it('takes four cells at their nominal voltage for fresh', () => {
    expect(resultAt('cells-volts', 4 * LR6.nominal)).toBe('good');
  });

  it('takes four cells for flat below four times the end of discharge, to 1 mV', () => {
    expect(band('cells-volts', 'flat').to).toBeCloseTo(4 * LR6.end, 3);
  });

  // One cell reversed takes its own voltage off the other three. Basis: computed from the nominal value.
  it('does not take four fresh cells for fresh when one is reversed', () => {
    expect(resultAt('cells-volts', 3 * LR6.nominal - LR6.nominal)).not.toBe('good');
  });
});

// JEDEC JESD8C, 3.3 V LVTTL: input low at most 0.8 V, high at least 2.0 V, supply 3.0 V to 3.6 V; 5 V TTL has the same
// input limits. Basis: the input limits second-hand, in a chip maker's table of the 3.3 V LVTTL standard; the supply's
// range recalled; the standard itself not seen.
describe('logic levels in the tree of the refitted panel', () => {
  const LVTTL = { low: 0.8, high: 2.0, supply: { from: 3.0, to: 3.6 } };

  it.each([
    ['data-clock', 'present', 'missing'],
    ['sync-level', 'good', 'missing'],
    ['reset', 'released', 'held'],
  ])(
    'takes %s for %s from the high limit, for %s below the low limit, and for neither between',
    (id, high, low) => {
      expect(resultAt(id, LVTTL.high)).toBe(high);
      expect(resultAt(id, LVTTL.low - 0.01)).toBe(low);
      for (const volts of [LVTTL.low, 1.4, LVTTL.high - 0.01]) {
        expect([high, low]).not.toContain(resultAt(id, volts));
      }
    },
  );

  it('takes no 3.3 V rail for good outside the supply range of the logic it feeds', () => {
    expect(band('driver-rail', 'good').from).toBeGreaterThanOrEqual(LVTTL.supply.from);
    expect(band('driver-rail', 'good').to).toBeLessThanOrEqual(LVTTL.supply.to);
  });
});

// IEC 60063, series E24. Basis: the series' list seen second-hand in an encyclopaedia; the standard itself not seen.
describe('values of parts in the tree of the refitted panel', () => {
  const E24 = [
    10, 11, 12, 13, 15, 16, 18, 20, 22, 24, 27, 30, 33, 36, 39, 43, 47, 51, 56, 62, 68, 75, 82, 91,
  ];

  it('are of the E24 series wherever a part is named by its resistance or capacitance', () => {
    const names = Object.values(findings).flatMap(({ remedy }) => remedy.parts.map(({ name }) => name));
    const values = names.flatMap((name) => /(\d+) (?:kohm|uF)\b/.exec(name)?.[1] ?? []).map(Number);
    expect(values.length).toBeGreaterThanOrEqual(3);
    for (const value of values)
      expect(E24).toContain(Math.round(value / 10 ** (Math.floor(Math.log10(value)) - 1)));
  });
});
