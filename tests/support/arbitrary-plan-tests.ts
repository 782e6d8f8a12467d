import fc from 'fast-check';
import { drawNeeds, testId, type Bench, type Lock } from './arbitrary-plan-bench.ts';
import { pick, type Draw } from './draw.ts';
import type { TreeDocument } from './trees.ts';

type TestDocument = TreeDocument['tests'][string];

interface Wanted {
  readonly bench: Bench;
  readonly interlocks: readonly Lock[];
  readonly count: number;
  readonly certain: boolean;
}

/** Tests of two results, some of three; those that open interlocks can be made before, and are no ratios. */
export function drawTests(draw: Draw, { bench, interlocks, count, certain }: Wanted): TreeDocument['tests'] {
  const tests: TreeDocument['tests'] = {};
  const measured: string[] = [];
  const threes = count <= 4 ? 2 : 0;
  for (let place = 0; place < count; place += 1) {
    const id = testId(place);
    const opened = interlocks.findIndex(({ openers }) => openers.includes(id));
    const needs = drawNeeds(draw, bench, opened === -1 ? [] : interlocks.slice(opened));
    const isRatio = opened === -1 && measured.length > 0 && draw(fc.nat, { max: 2 }) === 0;
    const of = isRatio ? pick(draw, measured) : undefined;
    const isMeasured = of !== undefined || draw(fc.boolean);
    if (isMeasured && of === undefined) measured.push(id);
    tests[id] = {
      title: id,
      ask: id,
      instrument: isMeasured ? 'dc-volts' : 'eye',
      needs,
      minutes: draw(fc.nat, { max: 32 }) / 4,
      ...(certain ? {} : { reliability: pick(draw, [1, 0.97, 0.9, 0.7]) }),
      ...(isMeasured ? { reading: { unit: 'V' } } : {}),
      results: drawResults(draw, place < threes && draw(fc.boolean) ? 3 : 2, isMeasured, of),
    };
  }
  return tests;
}

/** Bands from the lowest result up or from the highest down. Limits at 1 and 2, as volts or as ratios. */
function drawResults(
  draw: Draw,
  count: number,
  isMeasured: boolean,
  of: string | undefined,
): TestDocument['results'] {
  const results = ['sound', 'odd', 'gone'].slice(0, count);
  if (!isMeasured) return Object.fromEntries(results.map((result) => [result, { title: result }]));
  const order = draw(fc.boolean) ? results : results.toReversed();
  const last = order.length - 1;
  const bands = order.map((result, place) => {
    const band = {
      ...(place === 0 ? {} : { from: place }),
      ...(place === last ? {} : { to: place + 1 }),
      ...(of === undefined ? {} : { of }),
    };
    return [result, { title: result, band }] as const;
  });
  const byResult = new Map(bands);
  return Object.fromEntries(results.map((result) => [result, byResult.get(result) ?? { title: result }]));
}
