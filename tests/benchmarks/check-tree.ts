import { checkTree, flows, readTree, treeSchema } from '../../trees/document/index.ts';
import type { TreeDocument } from '../support/trees.ts';
import { medianMs, type Measure } from './measure.ts';

const ROUNDS = 9;

/**
 * Reading and checking trees of 2,000 steps, against only parsing the same bytes into the same shape. What the tests
 * tell of the findings is a table of tests x findings, so the second tree's is five times as large as the first's.
 */
export default async function (): Promise<Measure[]> {
  return [
    ...measuresOf('2,000 steps, four paths that share steps', document(4, 500, 400), 20),
    ...measuresOf('2,000 steps in one chain, 2,000 findings', document(1, 2000, 2000), 50),
  ];
}

function measuresOf(name: string, tree: TreeDocument, checkAtMost: number): Measure[] {
  const bytes = new TextEncoder().encode(JSON.stringify(tree));
  const read = readTree(bytes).tree;
  if (read === null) throw new Error('The benchmark’s own tree cannot be read.');
  const errors = checkTree(read).filter(({ severity }) => severity === 'error');
  if (errors.length > 0) throw new Error(`The benchmark’s own tree has errors: ${JSON.stringify(errors[0])}`);

  const parse = medianMs(ROUNDS, () => treeSchema.parse(JSON.parse(new TextDecoder().decode(bytes))));
  const reading = medianMs(ROUNDS, () => readTree(bytes));
  const checking = medianMs(ROUNDS, () => checkTree(read));
  const flow = medianMs(ROUNDS, () => flows(read));
  const against = `JSON.parse and the schema alone (${parse.toFixed(1)} ms, ${(bytes.length / 1024).toFixed(0)} KiB)`;
  return [
    { name: `read, ${name}`, figure: reading, unit: 'ms' },
    { name: `read / parse, ${name}`, figure: reading / parse, unit: 'times', limit: { atMost: 6 }, against },
    { name: `check, ${name}`, figure: checking, unit: 'ms', limit: { atMost: 2000 } },
    {
      name: `check / parse, ${name}`,
      figure: checking / parse,
      unit: 'times',
      limit: { atMost: checkAtMost },
      against,
    },
    { name: `flows, ${name}`, figure: flow, unit: 'ms' },
  ];
}

/** Every step makes a test of its own: a sound unit goes to the next step, a faulty one to a finding or four steps on. */
function document(paths: number, length: number, findings: number): TreeDocument {
  const tests: TreeDocument['tests'] = {};
  const symptoms: TreeDocument['symptoms'] = {};
  const finding = (place: number): string => `finding:finding-${String(place % findings)}`;
  for (let path = 0; path < paths; path += 1) {
    const steps: NonNullable<TreeDocument['symptoms'][string]['steps']> = {};
    for (let place = 0; place < length; place += 1) {
      const number = path * length + place;
      const onward = (by: number): string =>
        place + by < length ? `step-${String(place + by)}` : finding(number);
      tests[`test-${String(number)}`] = test();
      steps[`step-${String(place)}`] = {
        test: `test-${String(number)}`,
        then: {
          good: { go: onward(1), weight: 9 },
          low: { go: finding(number + 1), weight: 2 },
          high: { go: paths === 1 ? finding(number + 1) : onward(4), weight: 1 },
        },
      };
    }
    symptoms[`symptom-${String(path)}`] = { title: 'Symptom', first: 'step-0', steps };
  }
  return {
    format: 'ohmward-tree/1',
    id: 'large',
    title: 'Large tree',
    unit: { family: 'None' },
    tests,
    findings: Object.fromEntries(
      Array.from({ length: findings }, (_, place) => [`finding-${String(place)}`, cause()]),
    ),
    symptoms,
  };
}

function test(): TreeDocument['tests'][string] {
  return {
    title: 'Rail',
    ask: 'Measure the rail at its test point, the black probe on ground.',
    instrument: 'dc-volts',
    minutes: 0.8,
    reading: { unit: 'V' },
    results: {
      good: { title: 'In limits', band: { from: 3.135, to: 3.465 } },
      low: { title: 'Low', band: { to: 3.135 } },
      high: { title: 'High', band: { from: 3.465 } },
    },
  };
}

function cause(): TreeDocument['findings'][string] {
  return {
    title: 'Part failed',
    because: 'It has been hot.',
    remedy: { steps: ['Replace it.'], minutes: 10, parts: [{ name: 'Part', price: 1 }] },
    prove: ['test-0'],
  };
}
