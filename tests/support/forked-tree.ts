import type { Tree } from '../../trees/document/index.ts';
import { treeOf, type TreeDocument } from './trees.ts';

/**
 * A path that forks and comes together again, of tests that need nothing of the bench:
 *
 *     start (first) --yes, 3--> left (second) --yes, 1--> deep (fourth) --> worn / torn
 *                                             --no, 2---> finding worn
 *                   --no, 1---> right (third) --yes, 1--> again (first) --> deep / finding torn
 *                                             --no, 1---> symptom two: other (fifth) --> worn / torn
 */
export function forkedDocument(): TreeDocument {
  const tests = ['first', 'second', 'third', 'fourth', 'fifth'];
  return {
    format: 'ohmward-tree/1',
    id: 'forked',
    title: 'Forked',
    unit: { family: 'Forked' },
    tests: Object.fromEntries(tests.map((id) => [id, test(id)])),
    findings: { worn: finding('Worn'), torn: finding('Torn') },
    symptoms: {
      one: {
        title: 'One',
        first: 'start',
        steps: {
          start: { test: 'first', then: { yes: { go: 'left', weight: 3 }, no: { go: 'right', weight: 1 } } },
          left: {
            test: 'second',
            then: { yes: { go: 'deep', weight: 1 }, no: { go: 'finding:worn', weight: 2 } },
          },
          right: { test: 'third', then: { yes: { go: 'again' }, no: { go: 'symptom:two' } } },
          again: { test: 'first', then: { yes: { go: 'deep' }, no: { go: 'finding:torn' } } },
          deep: { test: 'fourth', then: ends() },
        },
      },
      two: { title: 'Two', first: 'other', steps: { other: { test: 'fifth', then: ends() } } },
    },
  };
}

export function forkedTree(): Tree {
  return treeOf(forkedDocument());
}

function ends() {
  return { yes: { go: 'finding:worn' }, no: { go: 'finding:torn' } };
}

function test(id: string): TreeDocument['tests'][string] {
  return {
    title: `The ${id} test`,
    ask: 'Look.',
    instrument: 'eye',
    minutes: 1,
    results: { yes: { title: 'Yes' }, no: { title: 'No' } },
  };
}

function finding(title: string): TreeDocument['findings'][string] {
  return { title, because: 'So it is.', remedy: { steps: ['Mend it.'], minutes: 5 }, prove: ['first'] };
}
