import { own } from '../document/index.ts';
import type { Layout } from './evaluate-layout.ts';

/** What a standing answer can still be good for, added up: a step may ask its test, an interlock or a proof go by it. */
export const ROUTES = 1;
export const OPENS = 2;
export const PROVES = 4;

/** The first of a test's results that does the same as this one for all that it can still be good for. */
export type Alike = (test: number, result: number, uses: number) => number;

/**
 * Results are alike where every step branches alike by them, interlocks allow both or neither, and both or neither is
 * what a proof wants.
 */
export function alikeResults(layout: Layout): Alike {
  const firsts = new Map<number, readonly number[]>();
  return (test, result, uses) => {
    const name = test * 8 + uses;
    const known = firsts.get(name) ?? firstAlike(layout, test, uses);
    firsts.set(name, known);
    return known[result] ?? result;
  };
}

function firstAlike({ tree, tests, steps }: Layout, test: number, uses: number): readonly number[] {
  const { id = '', results = [] } = tests[test] ?? {};
  const asking = (uses & ROUTES) === 0 ? [] : steps.filter((step) => step.test === test);
  const waiting = (uses & OPENS) === 0 ? [] : tree.interlocks.filter(({ until }) => Object.hasOwn(until, id));
  const first = new Map<string, number>();
  return results.map((result, place) => {
    const does = JSON.stringify([
      asking.map(({ leads }) => leads[place]),
      waiting.map(({ until }) => own(until, id)?.includes(result) ?? false),
      (uses & PROVES) !== 0 && place === 0,
    ]);
    const same = first.get(does) ?? place;
    first.set(does, same);
    return same;
  });
}
