import fc from 'fast-check';
import { chosen, readingWeights, type Evidence, type History } from '../../trees/belief/index.ts';
import { bandsOf, referenceOf, type Test, type Tree } from '../../trees/document/index.ts';
import { arbitraryTree } from '../support/arbitrary-tree.ts';
import type { ReferenceAnswer } from '../support/reference-belief.ts';

type Draw = fc.GeneratorValue;

/** A tree, some history, and what a job on it has shown: as the reference takes it and as evidence. */
export interface Case {
  readonly tree: Tree;
  readonly history: History;
  readonly symptom: string;
  readonly answers: readonly ReferenceAnswer[];
  readonly failed: readonly string[];
  readonly evidence: Evidence;
}

export function arbitraryCase(): fc.Arbitrary<Case> {
  return fc.gen().map((draw) => {
    const tree = draw(arbitraryTree);
    const made = some(draw, Object.keys(tree.tests));
    const answers = made.map((id) => drawAnswer(draw, id, testOf(tree, id)));
    const failed = some(draw, Object.keys(tree.findings), 2);
    return {
      tree,
      history: drawHistory(draw, tree),
      symptom: pick(draw, Object.keys(tree.symptoms)),
      answers,
      failed,
      evidence: { observations: answers.map((answer) => observationOf(tree, answer)), failed },
    };
  });
}

export function observationOf(tree: Tree, answer: ReferenceAnswer): Evidence['observations'][number] {
  if ('result' in answer) return chosen(answer.test, answer.result);
  const weighed = readingWeights(testOf(tree, answer.test), answer, answer.reference);
  if (!weighed.ok) throw new Error(weighed.message);
  return { test: answer.test, weights: weighed.weights };
}

export function testOf(tree: Tree, id: string): Test {
  const test = tree.tests[id];
  if (test === undefined) throw new Error(`no test ${id}`);
  return test;
}

/** Readings fall anywhere, and often within a few standard uncertainties of a limit. */
function drawAnswer(draw: Draw, test: string, { results, ...rest }: Test): ReferenceAnswer {
  const whole = { results, ...rest };
  const bands = bandsOf(whole);
  if (bands.length === 0 || draw(fc.boolean)) return { test, result: pick(draw, Object.keys(results)) };
  const accuracy = { percent: pick(draw, [0, 0.5, 3]), constant: pick(draw, [0.005, 0.3]) };
  const ratio = referenceOf(whole) === undefined ? undefined : pick(draw, [4.97, 0.3, -11.8]);
  const limits = bands.flatMap(({ to }) => (to === Infinity ? [] : [to * (ratio ?? 1)]));
  const near = pick(draw, limits) + (draw(fc.integer, { min: -50, max: 50 }) / 10) * accuracy.constant;
  const value = draw(fc.boolean) ? near : pick(draw, ['OL' as const, 0, -3.3, 1e6]);
  return { test, value, accuracy, ...(ratio === undefined ? {} : { reference: ratio }) };
}

/** Counts for the tree's ids and for some that it no longer has. */
export function drawHistory(draw: Draw, tree: Tree): History {
  const findings = [...Object.keys(tree.findings), 'unlisted', 'gone'];
  const tests = [...Object.keys(tree.tests), 'gone'];
  return {
    findings: drawRecord(draw, Object.keys(tree.symptoms), () =>
      drawRecord(draw, findings, () => count(draw)),
    ),
    results: drawRecord(draw, tests, (test) => {
      const results = [...Object.keys(tree.tests[test]?.results ?? {}), 'gone'];
      return drawRecord(draw, findings, () => drawRecord(draw, results, () => count(draw)));
    }),
    remedies: drawRecord(draw, findings, () => {
      const mended = count(draw);
      return { tried: mended + count(draw), mended };
    }),
  };
}

function drawRecord<V>(draw: Draw, keys: readonly string[], value: (key: string) => V): Record<string, V> {
  return Object.fromEntries(some(draw, keys).map((key) => [key, value(key)]));
}

function count(draw: Draw): number {
  return draw(fc.nat, { max: 12 });
}

export function pick<T>(draw: Draw, from: readonly T[]): T {
  return draw(fc.constantFrom<T[]>, ...from);
}

function some<T>(draw: Draw, from: readonly T[], most = Infinity): T[] {
  return draw(fc.subarray<T>, [...from], { maxLength: Math.min(most, from.length) });
}
