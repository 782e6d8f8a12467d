import fc from 'fast-check';
import type { Tree } from '../../trees/document/index.ts';
import { drawMinutes, drawText, ids, optional, pick, some, type Draw } from './draw.ts';
import { treeOf, type TreeDocument } from './trees.ts';

type TestDocument = TreeDocument['tests'][string];
type Needs = Record<string, string>;
type Pair = readonly [axis: string, state: string];

/**
 * Trees that can be walked: random bench axes, interlocks, measured and chosen tests (ratio bands too), findings with and
 * without expectations, and paths that share steps and cross into one another. Sound by construction (the checker finds
 * no error); warnings are to be expected. Some ids are words a careless lookup trips over, such as `constructor`.
 */
export function arbitraryTree(): fc.Arbitrary<Tree> {
  return arbitraryDocument().map(treeOf);
}

/** {@link arbitraryTree} as written in a file, with optional fields left out at random. */
export function arbitraryDocument(): fc.Arbitrary<TreeDocument> {
  return fc.gen().map(drawDocument);
}

function drawDocument(draw: Draw): TreeDocument {
  const bench = drawBench(draw);
  const barred = drawBarred(draw, bench);
  const tests = drawTests(draw, bench, barred);
  const findings = drawFindings(draw, bench, tests);
  return {
    format: 'ohmward-tree/1',
    id: 'drawn',
    title: drawText(draw),
    unit: { family: drawText(draw) },
    ...optional(draw, 'defaults', () => drawDefaults(draw)),
    bench,
    interlocks: barred.map(([axis, state], index) => ({
      change: { [axis]: state },
      until: { [openerId(index)]: allowedResults(draw, tests[openerId(index)]) },
      because: drawText(draw),
    })),
    tests,
    findings,
    symptoms: drawSymptoms(draw, tests, Object.keys(findings)),
  };
}

/** Star-shaped axes: from the start to every other state and back, so that no interlock stands in the way back. */
function drawBench(draw: Draw): NonNullable<TreeDocument['bench']> {
  const axes = ['power', 'shell', 'constructor'].slice(0, draw(fc.nat, { max: 3 }));
  return Object.fromEntries(
    axes.map((axis) => {
      const others = ids(draw, 'state', 1, 2);
      const changes = others.flatMap((state) => [
        { from: 'rest', to: state, minutes: drawMinutes(draw), say: drawText(draw) },
        { from: state, to: 'rest', minutes: drawMinutes(draw), say: drawText(draw) },
      ]);
      const states = Object.fromEntries(
        ['rest', ...others].map((state) => [state, { title: drawText(draw) }]),
      );
      return [axis, { title: drawText(draw), start: 'rest', states, changes }];
    }),
  );
}

function drawBarred(draw: Draw, bench: NonNullable<TreeDocument['bench']>): Pair[] {
  const pairs = Object.entries(bench).flatMap(([axis, { states, start }]) =>
    Object.keys(states).flatMap((state): Pair[] => (state === start ? [] : [[axis, state]])),
  );
  return some(draw, pairs, 0, 2);
}

/** The test that opens the interlock of this place; the tests of that many first places are openers. */
function openerId(index: number): string {
  return `test-${String(index)}`;
}

/** Results of an opener that open its interlock: the sound one always, others at random. */
function allowedResults(draw: Draw, opener: TestDocument | undefined): string[] {
  const [sound = '', ...others] = Object.keys(opener?.results ?? {});
  return [sound, ...some(draw, others)];
}

function drawTests(
  draw: Draw,
  bench: NonNullable<TreeDocument['bench']>,
  barred: readonly Pair[],
): TreeDocument['tests'] {
  const count = draw(fc.integer, { min: Math.max(2, barred.length), max: 8 });
  const tests: TreeDocument['tests'] = {};
  const plain: string[] = [];
  for (let index = 0; index < count; index += 1) {
    const opener = index < barred.length;
    const id = index === count - 1 && !opener ? 'constructor' : openerId(index);
    const shut = opener ? barred.slice(index) : [];
    const test = drawTest(draw, drawNeeds(draw, bench, shut), opener ? [] : plain);
    tests[id] = test;
    if (test.reading !== undefined && !Object.values(test.results).some(({ band }) => band?.of !== undefined))
      plain.push(id);
  }
  return tests;
}

/** Needs that can be met while the changeovers into the `shut` states are barred. */
function drawNeeds(draw: Draw, bench: NonNullable<TreeDocument['bench']>, shut: readonly Pair[]): Needs {
  const needs: Needs = {};
  for (const [axis, { states }] of Object.entries(bench)) {
    if (!draw(fc.boolean)) continue;
    const allowed = Object.keys(states).filter((state) => !shut.some(([a, s]) => a === axis && s === state));
    needs[axis] = pick(draw, allowed);
  }
  return needs;
}

function drawTest(draw: Draw, needs: Needs, references: readonly string[]): TestDocument {
  const results = ids(draw, 'result', 2, 4);
  const measured = draw(fc.boolean);
  const of = measured && references.length > 0 && draw(fc.boolean) ? pick(draw, references) : undefined;
  const bands = measured ? drawBands(draw, results, of) : undefined;
  return {
    title: drawText(draw),
    ask: drawText(draw),
    instrument: measured ? pick(draw, ['dc-volts', 'ohms', 'dc-amps', 'scope'] as const) : 'eye',
    ...optional(draw, 'needs', () => needs),
    minutes: drawMinutes(draw),
    ...optional(draw, 'reliability', () => pick(draw, [1, 0.99, 0.9, 0.6])),
    ...(measured ? { reading: { unit: 'V' as const } } : {}),
    results: Object.fromEntries(
      results.map((result) => [
        result,
        { title: drawText(draw), ...(bands ? { band: bands.get(result) ?? {} } : {}) },
      ]),
    ),
  };
}

function drawBands(draw: Draw, results: readonly string[], of: string | undefined) {
  const count = results.length;
  const limits = draw(fc.uniqueArray<number, number>, fc.integer({ min: -40, max: 200 }), {
    minLength: count - 1,
    maxLength: count - 1,
  })
    .sort((a, b) => a - b)
    .map((limit) => limit / 20);
  const order = draw(fc.shuffledSubarray<string>, [...results], { minLength: count, maxLength: count });
  return new Map(
    order.map((result, place) => {
      const from = limits[place - 1];
      const to = limits[place];
      return [
        result,
        {
          ...(from === undefined ? {} : { from }),
          ...(to === undefined ? {} : { to }),
          ...(of === undefined ? {} : { of }),
        },
      ];
    }),
  );
}

function drawFindings(
  draw: Draw,
  bench: NonNullable<TreeDocument['bench']>,
  tests: TreeDocument['tests'],
): TreeDocument['findings'] {
  const testIds = Object.keys(tests);
  return Object.fromEntries(
    ids(draw, 'finding', 2, 8).map((id) => [
      id,
      {
        title: drawText(draw),
        because: drawText(draw),
        remedy: {
          steps: [drawText(draw)],
          ...optional(draw, 'needs', () => drawNeeds(draw, bench, [])),
          minutes: drawMinutes(draw),
          ...optional(draw, 'parts', () => [{ name: drawText(draw), price: draw(fc.nat, { max: 40 }) / 2 }]),
          ...optional(draw, 'disturbs', () => some(draw, testIds)),
        },
        ...optional(draw, 'prove', () => some(draw, testIds, 0, 3)),
        ...optional(draw, 'expects', () => drawExpects(draw, tests)),
        ...optional(draw, 'otherwise', () =>
          pick(draw, ['step-0', 'symptom:symptom-0', 'symptom:symptom-0/step-0']),
        ),
      },
    ]),
  );
}

function drawExpects(
  draw: Draw,
  tests: TreeDocument['tests'],
): Record<string, string | Record<string, number>> {
  const expected = some(draw, Object.keys(tests));
  return Object.fromEntries(
    expected.map((test) => {
      const results = Object.keys(tests[test]?.results ?? {});
      if (draw(fc.boolean)) return [test, pick(draw, results)];
      const parts = results.map((_, place) => draw(fc.nat, { max: 9 }) + (place === 0 ? 1 : 0));
      const total = parts.reduce((sum, part) => sum + part, 0);
      return [
        test,
        Object.fromEntries(results.map((result, place) => [result, (parts[place] ?? 0) / total])),
      ];
    }),
  );
}

/** Paths lead only to later steps and later symptoms, so they form no loop. The last symptom may have weights alone. */
function drawSymptoms(
  draw: Draw,
  tests: TreeDocument['tests'],
  findings: readonly string[],
): TreeDocument['symptoms'] {
  const sizes = draw(fc.array<number>, fc.integer({ min: 1, max: 7 }), { minLength: 1, maxLength: 3 });
  const symptoms: TreeDocument['symptoms'] = {};
  sizes.forEach((size, place) => {
    const steps = Object.fromEntries(
      Array.from({ length: size }, (_, step) => {
        const leads = [
          ...findings.map((finding) => `finding:${finding}`),
          ...Array.from({ length: size - step - 1 }, (__, later) => `step-${String(step + later + 1)}`),
          ...laterLeads(sizes, place),
        ];
        return [`step-${String(step)}`, drawStep(draw, tests, leads)];
      }),
    );
    symptoms[`symptom-${String(place)}`] = {
      title: drawText(draw),
      first: 'step-0',
      ...optional(draw, 'weights', () => (draw(fc.boolean) ? drawWeights(draw, findings) : {})),
      steps,
    };
  });
  if (draw(fc.boolean))
    symptoms['constructor'] = { title: drawText(draw), weights: drawWeights(draw, findings) };
  return symptoms;
}

function laterLeads(sizes: readonly number[], place: number): string[] {
  return sizes.flatMap((size, later) => {
    if (later <= place) return [];
    const symptom = `symptom:symptom-${String(later)}`;
    return [symptom, ...Array.from({ length: size }, (_, step) => `${symptom}/step-${String(step)}`)];
  });
}

function drawStep(draw: Draw, tests: TreeDocument['tests'], leads: readonly string[]) {
  const test = pick(draw, Object.keys(tests));
  const weighted = draw(fc.boolean);
  return {
    test,
    then: Object.fromEntries(
      Object.keys(tests[test]?.results ?? {}).map((result, place) => [
        result,
        { go: pick(draw, leads), ...(weighted ? { weight: drawWeight(draw, place) } : {}) },
      ]),
    ),
  };
}

/** Never all zero: the first is always something. */
function drawWeight(draw: Draw, place: number): number {
  return draw(fc.nat, { max: 20 }) / 2 + (place === 0 ? 0.5 : 0);
}

function drawWeights(draw: Draw, findings: readonly string[]): Record<string, number> {
  const chosen = some(draw, findings, 1);
  return Object.fromEntries(chosen.map((finding, place) => [finding, drawWeight(draw, place)]));
}

function drawDefaults(draw: Draw): NonNullable<TreeDocument['defaults']> {
  return {
    ...optional(draw, 'strength', () => pick(draw, [0.5, 10, 40])),
    ...optional(draw, 'reliability', () => pick(draw, [0.8, 0.95, 1])),
    ...optional(draw, 'unlisted', () => pick(draw, [0, 0.02, 0.3])),
    ...optional(draw, 'fixRate', () => pick(draw, [0.5, 0.9, 1])),
    ...optional(draw, 'escalate', () => drawMinutes(draw)),
    ...optional(draw, 'settled', () => pick(draw, [0.8, 0.95, 1])),
  };
}
