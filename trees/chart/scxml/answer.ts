import { referenceOf, type Test, type Tree } from '../../document/index.ts';
import { standsIn } from './bench.ts';
import { state, type Element, type Way } from './element.ts';
import { gate, type Condition } from './gate.ts';
import { stepsOf, type Reach } from './reach.ts';

/** Active exactly while the job takes up new acts; the other states of the course. */
export const WORKING: Condition = { on: 'working', off: ['routing', 'contradiction', 'mended'] };

/** That the bench does not stand in a state that an interlock now bars. */
export const SAFE: Condition = { on: 'safe.open', off: ['safe.shut'] };

/** Regions of one test: its answer, its skip, and whether the bench stands for it and an answer is taken. */
export function testRegions(tree: Tree, reach: Reach, id: string, test: Test): readonly Element[] {
  const needs = Object.entries(test.needs).map(([axis, wanted]) => standsIn(tree, axis, wanted));
  const reference = referenceOf(test);
  return [
    answerRegion(tree, id, Object.keys(test.results), [...stepsOf(reach, id), `aside.${id}`]),
    skipRegion(id, Object.keys(test.results)),
    gate(`ready.${id}`, needs),
    gate(`taking.${id}`, [
      WORKING,
      SAFE,
      { on: `ready.${id}.open`, off: [`ready.${id}.shut`] },
      ...(reference === undefined
        ? []
        : [{ on: `answer.${reference}.given`, off: [`answer.${reference}.none`] }]),
    ]),
  ];
}

/**
 * `now` holds an answer of this era, `old` one from before the last remedy. A skip is taken only where there is neither,
 * at the `places` that ask the test, and is passed on to the skip's own region.
 */
function answerRegion(
  tree: Tree,
  id: string,
  results: readonly string[],
  places: readonly string[],
): Element {
  const skips = results.flatMap((result) =>
    places.map((place): Way => ({
      event: `skip.${id}.${result}`,
      in: place,
      raise: `passed-over.${id}.${result}`,
    })),
  );
  const now = state(`answer.${id}.now`, {
    ways: [...corrections(id, results, 'now'), ...settlings(id, results)],
    states: results.map((result) => answerNow(id, results, result)),
  });
  const old = state(`answer.${id}.old`, {
    ways: [...takings(id, results), ...corrections(id, results, 'old')],
    states: results.map((result) => state(`answer.${id}.old.${result}`)),
  });
  return state(`answer.${id}`, {
    states: [
      state(`answer.${id}.none`, { ways: [...takings(id, results), ...skips] }),
      state(`answer.${id}.given`, { ways: disturbances(tree, id), states: [now, old] }),
    ],
  });
}

/** A different answer contradicts this one, and a remedy done makes it old. */
function answerNow(id: string, results: readonly string[], result: string): Element {
  const others = results.filter((other) => other !== result);
  return state(`answer.${id}.now.${result}`, {
    ways: [
      ...others.map((other): Way => ({
        event: `answer.${id}.${other}`,
        in: `taking.${id}.open`,
        raise: `contradict.${id}.${other}`,
      })),
      { event: 'era', target: `answer.${id}.old.${result}` },
    ],
  });
}

function takings(id: string, results: readonly string[]): readonly Way[] {
  return results.map((result) => ({
    event: `answer.${id}.${result}`,
    in: `taking.${id}.open`,
    target: `answer.${id}.now.${result}`,
  }));
}

function corrections(id: string, results: readonly string[], era: 'now' | 'old'): readonly Way[] {
  return results.map((result) => ({
    event: `correct.${id}.${result}`,
    target: `answer.${id}.${era}.${result}`,
    raise: `rewritten.${id}`,
  }));
}

function settlings(id: string, results: readonly string[]): readonly Way[] {
  const second = results.map((result) => ({
    event: `settle.${id}.${result}`,
    in: `contradiction.${id}.${result}`,
    target: `answer.${id}.now.${result}`,
    raise: `rewritten.${id}`,
  }));
  const neither = {
    event: `settle-neither.${id}`,
    in: `contradiction.${id}`,
    target: `answer.${id}.none`,
    raise: `rewritten.${id}`,
  };
  return [...second, neither];
}

/** A remedy done takes away the answers that it disturbs. */
function disturbances(tree: Tree, id: string): readonly Way[] {
  return Object.entries(tree.findings).flatMap(([finding, { remedy }]) =>
    remedy.disturbs.includes(id) ? [{ event: `disturb.${finding}`, target: `answer.${id}.none` }] : [],
  );
}

/** What the course goes on by where a test was skipped. An answer ends it. */
function skipRegion(id: string, results: readonly string[]): Element {
  const ways = results.map((result): Way => ({
    event: `passed-over.${id}.${result}`,
    target: `skip.${id}.as.${result}`,
  }));
  const answered: Way = { event: `answer.${id}`, in: `taking.${id}.open`, target: `skip.${id}.none` };
  return state(`skip.${id}`, {
    states: [
      state(`skip.${id}.none`, { ways }),
      state(`skip.${id}.as`, {
        ways: [answered, ...ways],
        states: results.map((result) => state(`skip.${id}.as.${result}`)),
      }),
    ],
  });
}
