import type { Tree } from '../../trees/document/index.ts';
import { treeOf, type TreeDocument } from './trees.ts';

const TESTS = 300;
/** Steps from the start of {@link largeTree}'s path to its findings. */
export const LARGE_DEPTH = 100;
const WIDTH = 20;

/** A tree of 300 tests and 2,000 steps for benchmarks: twenty steps abreast, a hundred deep; every branch leads one deeper, the last ones to the findings. */
export function largeTree(): Tree {
  const steps: NonNullable<TreeDocument['symptoms'][string]['steps']> = {};
  for (let depth = 0; depth < LARGE_DEPTH; depth += 1) {
    for (let place = 0; place < WIDTH; place += 1) {
      const go = (by: number): string =>
        depth === LARGE_DEPTH - 1
          ? `finding:finding-${String((place + by) % 200)}`
          : `step-${String(depth + 1)}-${String((place + by) % WIDTH)}`;
      steps[`step-${String(depth)}-${String(place)}`] = {
        test: `test-${String((depth * 3 + (place % 3)) % TESTS)}`,
        then: { sound: { go: go(0) }, faint: { go: go(1) }, dead: { go: go(2) } },
      };
    }
  }
  return treeOf({
    format: 'ohmward-tree/1',
    id: 'large',
    title: 'Large tree',
    unit: { family: 'None' },
    bench: bench(),
    interlocks: [{ change: { power: 'on' }, until: { 'test-0': ['sound'] }, because: 'For the benchmark.' }],
    tests: Object.fromEntries(
      Array.from({ length: TESTS }, (_, place) => [`test-${String(place)}`, test(place)]),
    ),
    findings: Object.fromEntries(
      Array.from({ length: 200 }, (_, place) => [`finding-${String(place)}`, finding(place)]),
    ),
    symptoms: { symptom: { title: 'Symptom', first: 'step-0-0', steps } },
  });
}

function bench(): NonNullable<TreeDocument['bench']> {
  const axis = (title: string, start: string, other: string) => ({
    title,
    start,
    states: { [start]: { title: start }, [other]: { title: other } },
    changes: [
      { from: start, to: other, minutes: 1, say: 'Change it over.' },
      { from: other, to: start, minutes: 1, say: 'Change it back.' },
    ],
  });
  return { power: axis('Power', 'off', 'on'), shell: axis('Shell', 'closed', 'open') };
}

function test(place: number): TreeDocument['tests'][string] {
  return {
    title: 'Test',
    ask: 'Look.',
    instrument: 'eye',
    needs: place === 0 ? { shell: 'open' } : { shell: 'open', power: 'on' },
    minutes: 1,
    results: { sound: { title: 'Sound' }, faint: { title: 'Faint' }, dead: { title: 'Dead' } },
  };
}

function finding(place: number): TreeDocument['findings'][string] {
  return {
    title: 'Finding',
    because: 'For the benchmark.',
    remedy: { steps: ['Mend it.'], minutes: 5 },
    prove: [`test-${String(place)}`],
  };
}
