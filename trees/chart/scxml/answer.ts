import { referenceOf, type Test, type Tree } from '../../document/index.ts';
import { SAFE } from './bench.ts';
import { state, type Element, type Way } from './element.ts';
import { stepsOf, type Reach } from './reach.ts';
import { standFor } from './stand.ts';

/**
 * The region of one test. `now` holds an answer of this era, `old` one from before the last remedy, `as` what the course
 * goes on by where the test was skipped. It announces what has become of its answer: `answered`, `contradict`, `kept` (a
 * contradiction settled for the first answer), `rewritten` (corrected, or settled otherwise), or `skipped`.
 */
export function answerRegion(tree: Tree, reach: Reach, id: string, test: Test): Element {
  const results = Object.keys(test.results);
  const taken = results.map((result): Way => ({
    ...taking(tree, id, result),
    target: `answer.${id}.now.${result}`,
    raise: `answered.${id}`,
    isInternal: true,
  }));
  return state(`answer.${id}`, {
    ways: taken,
    states: [missing(reach, id, results), given(tree, id, results)],
  });
}

/**
 * The ways by which answers come in while the job takes up acts and the bench is safe: as `take`, which becomes `judge`
 * where the answer that a test is judged against is given.
 */
export function takings(tree: Tree): readonly Way[] {
  return Object.entries(tree.tests).flatMap(([id, { results }]) =>
    Object.keys(results).map((result) => ({
      event: `answer.${id}.${result}`,
      in: SAFE,
      raise: `take.${id}.${result}`,
    })),
  );
}

/** The id of the state in which a test has this answer, given since the last remedy. */
export function answerNow(id: string, result: string): string {
  return `answer.${id}.now.${result}`;
}

/** The id of the state in which a test has an answer since the last remedy that a sound unit does not give. */
export function unsoundNow(id: string): string {
  return `answer.${id}.unsound`;
}

/** An answer is taken where the bench stands as the test needs it. */
function taking(tree: Tree, id: string, result: string): Way {
  const test = tree.tests[id];
  const stand = standFor(tree, test?.needs ?? {});
  const isJudged = test !== undefined && referenceOf(test) !== undefined;
  return {
    event: `${isJudged ? 'judge' : 'take'}.${id}.${result}`,
    ...(stand === null ? {} : { in: stand.id }),
  };
}

/** A skip is taken at the steps that ask the test, and where it was turned to. */
function missing(reach: Reach, id: string, results: readonly string[]): Element {
  const skips = (place: string) =>
    results.map((result): Way => ({
      event: `skip.${id}.${result}`,
      in: place,
      target: `answer.${id}.as.${result}`,
      raise: `skipped.${id}`,
    }));
  return state(`answer.${id}.missing`, {
    ways: skips(`aside.${id}`),
    states: [
      state(`answer.${id}.none`, { ways: stepsOf(reach, id).flatMap(skips) }),
      ...results.map((result) => state(`answer.${id}.as.${result}`)),
    ],
  });
}

function given(tree: Tree, id: string, results: readonly string[]): Element {
  const [sound, ...unsound] = results.map((result) => nowState(tree, id, results, result));
  const now = state(`answer.${id}.now`, {
    ways: [...corrections(id, results, 'now'), ...settlings(id, results)],
    states: [
      ...(sound === undefined ? [] : [sound]),
      ...(unsound.length === 0 ? [] : [state(unsoundNow(id), { states: unsound })]),
    ],
  });
  const old = state(`answer.${id}.old`, {
    ways: corrections(id, results, 'old'),
    states: results.map((result) => state(`answer.${id}.old.${result}`)),
  });
  return state(`answer.${id}.given`, {
    ways: [...disturbances(tree, id), ...judgings(tree, id)],
    states: [now, old],
  });
}

/** A different answer contradicts this one, and a remedy done makes it old. */
function nowState(tree: Tree, id: string, results: readonly string[], result: string): Element {
  const others = results.filter((other) => other !== result);
  return state(answerNow(id, result), {
    ways: [
      ...others.map((other): Way => ({ ...taking(tree, id, other), raise: `contradict.${id}.${other}` })),
      { event: `settle.${id}.${result}`, in: `contradiction.${id}`, raise: `kept.${id}` },
      { event: 'era', target: `answer.${id}.old.${result}` },
    ],
  });
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
    target: answerNow(id, result),
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
  const disturbing = Object.entries(tree.findings).flatMap(([finding, { remedy }]) =>
    remedy.disturbs.includes(id) ? [`disturb.${finding}`] : [],
  );
  return disturbing.length === 0 ? [] : [{ event: disturbing, target: `answer.${id}.none` }];
}

/** While this answer is given, answers to the tests that are judged against it go on to be judged. */
function judgings(tree: Tree, id: string): readonly Way[] {
  return Object.entries(tree.tests).flatMap(([judged, test]) =>
    referenceOf(test) !== id
      ? []
      : Object.keys(test.results).map((result) => ({
          event: `take.${judged}.${result}`,
          raise: `judge.${judged}.${result}`,
        })),
  );
}
