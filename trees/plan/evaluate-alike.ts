import { own, type Tree } from '../document/index.ts';
import type { stepsWithin } from './evaluate-ahead.ts';

/** What a standing answer can still be good for. */
export interface Uses {
  /** A step may ask its test. */
  readonly routes: boolean;
  /** An interlock goes by it. */
  readonly opens: boolean;
  /** A proof goes by it. */
  readonly proves: boolean;
}

/** The first of a test's results that does the same as this one for all that it can still be good for. */
export type Alike = (test: string, result: string, uses: Uses) => string;

/** Results are alike where every step (of those given) branches alike by them, interlocks allow both or neither, and neither or both are sound. */
export function alikeResults(tree: Tree, steps: ReturnType<typeof stepsWithin>): Alike {
  const firsts = new Map<string, ReadonlyMap<string, string>>();
  return (test, result, { routes, opens, proves }) => {
    const name = `${test} ${String(routes)} ${String(opens)} ${String(proves)}`;
    const known = firsts.get(name) ?? firstAlike(tree, steps, test, { routes, opens, proves });
    firsts.set(name, known);
    return known.get(result) ?? result;
  };
}

function firstAlike(
  tree: Tree,
  steps: ReturnType<typeof stepsWithin>,
  test: string,
  { routes, opens, proves }: Uses,
): ReadonlyMap<string, string> {
  const results = Object.keys(own(tree.tests, test)?.results ?? {});
  const asking = routes ? steps.filter((step) => step.test === test) : [];
  const waiting = opens ? tree.interlocks.filter(({ until }) => Object.hasOwn(until, test)) : [];
  const first = new Map<string, string>();
  return new Map(
    results.map((result, place) => {
      const does = JSON.stringify([
        asking.map(({ branches }) => branches.find((branch) => branch.result === result)?.lead ?? null),
        waiting.map(({ until }) => own(until, test)?.includes(result) ?? false),
        proves && place === 0,
      ]);
      const same = first.get(does) ?? result;
      first.set(does, same);
      return [result, same];
    }),
  );
}
