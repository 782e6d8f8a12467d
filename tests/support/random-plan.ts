import { compileFaultModel, NO_HISTORY } from '../../trees/belief/index.ts';
import { firstSituation } from '../../trees/chart/index.ts';
import type { PlanQuestion } from '../../trees/plan/index.ts';
import { seededRandom, type Random } from '../../main/services/demo/random.ts';
import { treeOf, type TreeDocument } from './trees.ts';

/** What a random planning question is like; all else is drawn. */
export interface PlanShape {
  readonly goal: PlanQuestion['goal'];
  readonly findings: number;
  readonly tests: number;
  /** Results of each test; 2 where not said. */
  readonly results?: number;
  /** The chance that a finding gives a test another result than the sound one; every result alike where not said. */
  readonly odd?: number;
  /** States of the one bench axis, with a changeover between any two; 1: no bench. */
  readonly benchStates?: number;
  /** Every result is certain; else each test's reliability lies between 0.8 and 0.99. */
  readonly certain: boolean;
  readonly unlisted?: number;
  readonly settled?: number;
  readonly fixRate?: number;
  /** Tests that prove each remedy. */
  readonly proofTests?: number;
  /** The chance that a remedy disturbs a test. */
  readonly disturbs?: number;
}

const SYMPTOM = 'shown';
const AXIS = 'place';

/**
 * A mid-size or large question for a new job, the same for the same seed: findings weigh 0.2 to 5.2, tests take 0.3 to 5.3 minutes, changeovers 0.5 to 3.5, remedies 2 to 27, and passing on 60.
 */
export function randomQuestion(shape: PlanShape, seed: number): PlanQuestion {
  const tree = treeOf(randomDocument(shape, seededRandom(seed)));
  const { job, bench } = firstSituation(tree, SYMPTOM);
  return { model: compileFaultModel(tree, NO_HISTORY), goal: shape.goal, job, bench, rate: null };
}

function randomDocument(shape: PlanShape, random: Random): TreeDocument {
  const { unlisted = 0, settled = 1, fixRate = 0.95, benchStates = 1 } = shape;
  const findings = idsOf('finding', shape.findings);
  const states = idsOf('state', benchStates);
  const tests = Object.fromEntries(
    idsOf('test', shape.tests).map((id) => [id, aTest(shape, random, id, states)]),
  );
  return {
    format: 'ohmward-tree/1',
    id: 'random',
    title: 'Random',
    unit: { family: 'None' },
    defaults: { reliability: 1, unlisted, settled, fixRate, escalate: 60 },
    bench: benchStates > 1 ? { [AXIS]: anAxis(random, states) } : {},
    tests,
    findings: Object.fromEntries(findings.map((id) => [id, aFinding(shape, random, id, { states, tests })])),
    symptoms: {
      [SYMPTOM]: {
        title: 'Shown',
        weights: Object.fromEntries(findings.map((id) => [id, 0.2 + 5 * random.next()])),
      },
    },
  };
}

function aTest(
  { results = 2, certain }: PlanShape,
  random: Random,
  id: string,
  states: readonly string[],
): TreeDocument['tests'][string] {
  return {
    title: id,
    ask: id,
    instrument: 'eye',
    ...needs(random, states),
    minutes: 0.3 + Math.round(50 * random.next()) / 10,
    ...(certain ? {} : { reliability: 0.8 + 0.19 * random.next() }),
    results: Object.fromEntries(idsOf('result', results).map((result) => [result, { title: result }])),
  };
}

function aFinding(
  { proofTests = 0, disturbs = 0, odd }: PlanShape,
  random: Random,
  id: string,
  { states, tests }: { readonly states: readonly string[]; readonly tests: TreeDocument['tests'] },
): TreeDocument['findings'][string] {
  const ids = Object.keys(tests);
  const expects = Object.entries(tests).map(([test, { results }]) => {
    const [sound = '', ...others] = Object.keys(results);
    if (odd === undefined) return [test, random.choose([sound, ...others])];
    return [test, random.happens(odd) ? random.choose(others) : sound];
  });
  const proving = new Set<string>();
  while (proving.size < Math.min(proofTests, ids.length)) proving.add(random.choose(ids));
  return {
    title: id,
    because: id,
    remedy: {
      steps: [id],
      minutes: 2 + Math.round(250 * random.next()) / 10,
      ...needs(random, states),
      disturbs: disturbs > 0 ? ids.filter(() => random.happens(disturbs)) : [],
    },
    prove: [...proving],
    expects: Object.fromEntries(expects),
  };
}

function needs(random: Random, states: readonly string[]): { readonly needs?: Record<string, string> } {
  return states.length > 1 ? { needs: { [AXIS]: random.choose(states) } } : {};
}

function anAxis(random: Random, states: readonly string[]): NonNullable<TreeDocument['bench']>[string] {
  const changes = states.flatMap((from) =>
    states.flatMap((to) =>
      from === to ? [] : [{ from, to, minutes: 0.5 + Math.round(30 * random.next()) / 10, say: 'Change.' }],
    ),
  );
  const titled = Object.fromEntries(states.map((state) => [state, { title: state }]));
  return { title: AXIS, start: states[0] ?? '', states: titled, changes };
}

function idsOf(kind: string, count: number): readonly string[] {
  return Array.from({ length: count }, (_, place) => `${kind}-${String(place)}`);
}
