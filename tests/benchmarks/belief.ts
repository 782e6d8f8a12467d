import {
  beliefOf,
  branchLikelihoods,
  compileFaultModel,
  defaultAccuracy,
  evidenceOf,
  type FaultModel,
  type History,
} from '../../trees/belief/index.ts';
import type { Answer, JobState } from '../../trees/chart/index.ts';
import type { Tree } from '../../trees/document/index.ts';
import { referenceBelief, type ReferenceAnswer } from '../support/reference-belief.ts';
import { treeOf, type TreeDocument } from '../support/trees.ts';
import { medianMs, type Measure } from './measure.ts';

const FINDINGS = 60;
const TESTS = 80;
const SYMPTOM = 'dark-screen';
const ROUNDS = 201;

/** A belief over 60 findings after 80 tests, half of them readings near a limit, against the slow reference. */
export default async function (): Promise<Measure[]> {
  const tree = treeOf(document());
  const job = jobOf(tree);
  const model = compileFaultModel(tree, HISTORY);
  const evidence = evidenceOf(tree, job);
  const belief = beliefOf(model, SYMPTOM, evidence);
  const slow = medianMs(3, () =>
    referenceBelief(tree, HISTORY, SYMPTOM, job.answers.map(referenceAnswer), []),
  );
  agree(referenceBelief(tree, HISTORY, SYMPTOM, job.answers.map(referenceAnswer), []), belief);

  const fast = medianMs(ROUNDS, () => beliefOf(model, SYMPTOM, evidence));
  const whole = medianMs(ROUNDS, () => beliefOf(model, SYMPTOM, evidenceOf(tree, job)));
  const branches = medianMs(ROUNDS, () => branchLikelihoods(model, belief, 'test-0'));
  const compiling = medianMs(ROUNDS, () => allTables(compileFaultModel(tree, HISTORY)));
  const name = `${String(FINDINGS)} findings, ${String(TESTS)} tests made`;
  return [
    { name: `belief, ${name}`, figure: fast, unit: 'ms', limit: { atMost: 1 } },
    {
      name: `belief / reference, ${name}`,
      figure: fast / slow,
      unit: 'times',
      limit: { atMost: 0.01 },
      against: `the slow reference (${slow.toFixed(0)} ms)`,
    },
    { name: `belief with its readings weighed, ${name}`, figure: whole, unit: 'ms', limit: { atMost: 2 } },
    { name: 'branch likelihoods of one test', figure: branches, unit: 'ms', limit: { atMost: 0.1 } },
    { name: 'fault model, every table', figure: compiling, unit: 'ms', limit: { atMost: 50 } },
  ];
}

const HISTORY: History = {
  findings: { [SYMPTOM]: { 'finding-1': 12, 'finding-7': 3, unlisted: 1 } },
  results: { 'test-1': { 'finding-1': { good: 2, low: 10 } }, 'test-7': { 'finding-7': { high: 3 } } },
  remedies: { 'finding-1': { tried: 13, mended: 12 } },
};

function allTables(model: FaultModel): void {
  model.prior(SYMPTOM);
  for (const id of Object.keys(model.tree.tests)) model.test(id);
}

/** Every test gives its first result, but now and then a second; even ones are measured, near the limit at 3.135 V. */
function jobOf(tree: Tree): JobState {
  const answers = Object.keys(tree.tests).map((test, index): Answer => {
    const result = index % 11 === 5 ? 'low' : 'good';
    if (index % 2 === 1) return { test, result, era: 0 };
    const value = result === 'low' ? 3.13 : 3.14;
    const accuracy = defaultAccuracy('dc-volts');
    return { test, result, era: 0, reading: { value, typed: String(value), accuracy } };
  });
  return { symptom: SYMPTOM, answers, skips: [], remedies: [], era: 0 };
}

function referenceAnswer({ test, result, reading }: Answer): ReferenceAnswer {
  if (reading === undefined) return { test, result };
  return { test, value: reading.value, accuracy: reading.accuracy };
}

function agree(expected: ReadonlyMap<string, number>, { findings }: ReturnType<typeof beliefOf>): void {
  for (const { finding, probability } of findings) {
    const difference = Math.abs(probability - (expected.get(finding) ?? -1));
    if (difference > 1e-9) throw new Error(`The reference differs by ${String(difference)} at ${finding}.`);
  }
}

/** One long path; half the tests are in a finding's `expects`, the rest is left to the flow. */
function document(): TreeDocument {
  const numbers = Array.from({ length: TESTS }, (_, place) => place);
  const finding = (place: number) => `finding:finding-${String(place % FINDINGS)}`;
  const steps = numbers.map((place) => [
    `step-${String(place)}`,
    {
      test: `test-${String(place)}`,
      then: {
        good: { go: place + 1 < TESTS ? `step-${String(place + 1)}` : finding(place), weight: 20 },
        low: { go: finding(place), weight: 2 },
        high: { go: finding(place + 1), weight: 1 },
      },
    },
  ]);
  return {
    format: 'ohmward-tree/1',
    id: 'long',
    title: 'Long tree',
    unit: { family: 'None' },
    tests: Object.fromEntries(numbers.map((place) => [`test-${String(place)}`, aTest(place % 2 === 0)])),
    findings: Object.fromEntries(
      numbers.slice(0, FINDINGS).map((place) => [`finding-${String(place)}`, aFinding(place)]),
    ),
    symptoms: { [SYMPTOM]: { title: 'Dark screen', first: 'step-0', steps: Object.fromEntries(steps) } },
  };
}

function aTest(measured: boolean): TreeDocument['tests'][string] {
  const bands = { good: { from: 3.135, to: 3.465 }, low: { to: 3.135 }, high: { from: 3.465 } };
  const results = Object.entries(bands).map(([id, band]) => [
    id,
    { title: id, ...(measured ? { band } : {}) },
  ]);
  return {
    title: 'Rail',
    ask: 'Measure the rail.',
    instrument: measured ? 'dc-volts' : 'eye',
    minutes: 1,
    ...(measured ? { reading: { unit: 'V' as const } } : {}),
    results: Object.fromEntries(results),
  };
}

function aFinding(place: number): TreeDocument['findings'][string] {
  const tests = Array.from({ length: TESTS / 2 }, (_, index) => index * 2 + (place % 2));
  const expects = tests.map((test) => [`test-${String(test)}`, test % 7 === place % 7 ? 'low' : 'good']);
  return {
    title: 'Part failed',
    because: 'It has been hot.',
    remedy: { steps: ['Replace it.'], minutes: 10 },
    expects: Object.fromEntries(expects),
  };
}
