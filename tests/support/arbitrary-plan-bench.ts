import fc from 'fast-check';
import { pick, some, type Draw } from './draw.ts';
import type { TreeDocument } from './trees.ts';

export type Bench = NonNullable<TreeDocument['bench']>;
type Axis = Bench[string];

/** An interlock with the tests that open it, their allowed results not yet drawn. */
export interface Lock {
  readonly change: Record<string, string>;
  readonly openers: readonly string[];
}

export function testId(place: number): string {
  return `test-${String(place)}`;
}

export function drawBench(draw: Draw): Bench {
  const axes = ['power', 'shell'].slice(0, draw(fc.nat, { max: 2 }));
  return Object.fromEntries(axes.map((axis) => [axis, drawAxis(draw)]));
}

/** Every state leads back: a star about the start, a chain, or a ring with a short cut, so that there are two ways. */
function drawAxis(draw: Draw): Axis {
  const pairs = pick(draw, [
    [['rest', 'one']],
    [
      ['rest', 'one'],
      ['rest', 'two'],
    ],
    [
      ['rest', 'one'],
      ['one', 'two'],
    ],
    [
      ['rest', 'one'],
      ['one', 'two'],
      ['rest', 'two'],
    ],
  ]);
  const changes = pairs.flatMap(([from = '', to = '']) => [
    { from, to, minutes: draw(fc.nat, { max: 12 }) / 4, say: 'Change over.' },
    { from: to, to: from, minutes: draw(fc.nat, { max: 12 }) / 4, say: 'Change back.' },
  ]);
  const states = Object.fromEntries(pairs.flat().map((state) => [state, { title: state }]));
  return { title: 'Axis', start: 'rest', states, changes };
}

/** Up to two interlocks, each with one test that opens it or two; one of an interlock's tests may open the other too. */
export function drawInterlocks(draw: Draw, bench: Bench, tests: number): readonly Lock[] {
  const states = Object.entries(bench).flatMap(([axis, { states }]) =>
    Object.keys(states).flatMap((state) => (state === 'rest' ? [] : [{ [axis]: state }])),
  );
  const barred = some(draw, states, 0, Math.min(2, tests));
  const ids = Array.from({ length: tests }, (_, place) => testId(place));
  return barred.map((change, place) => {
    const others = draw(fc.nat, { max: 2 }) === 0 ? some(draw, ids, 1, 1) : [];
    return { change, openers: [...new Set([testId(place), ...others])] };
  });
}

/** Needs that can be met from the start while the changeovers that these interlocks bar are barred. */
export function drawNeeds(draw: Draw, bench: Bench, shut: readonly Lock[]): Record<string, string> {
  const needs: Record<string, string> = {};
  for (const [axis, known] of Object.entries(bench)) {
    if (draw(fc.boolean)) needs[axis] = pick(draw, reached(axis, known, shut));
  }
  return needs;
}

function reached(axis: string, { start, changes }: Axis, shut: readonly Lock[]): string[] {
  const states = new Set([start]);
  for (const state of states) {
    for (const { from, to } of changes) {
      if (from === state && shut.every(({ change }) => change[axis] !== to)) states.add(to);
    }
  }
  return [...states];
}
