import type { TreeDocument } from '../support/trees.ts';

/**
 * A tree of three findings (one unit in five has `a`, three `b`, one `c`) whose path makes `x` (2 minutes), which tells `a` from the
 * rest, and then `y` (3), which tells `b`. `y` first is better. Tests are certain, nothing is unlisted, remedies always mend.
 */
export function threeFindings(): TreeDocument {
  const results = (...ids: string[]) => Object.fromEntries(ids.map((id) => [id, { title: id }]));
  const test = (minutes: number, ...ids: string[]): TreeDocument['tests'][string] => ({
    title: 'A test',
    ask: 'Look.',
    instrument: 'eye',
    minutes,
    results: results(...ids),
  });
  const finding = (x: string, y: string): TreeDocument['findings'][string] => ({
    title: 'A finding',
    because: 'So it is.',
    remedy: { steps: ['Mend it.'], minutes: 5 },
    prove: ['x'],
    expects: { x, y },
  });
  return {
    format: 'ohmward-tree/1',
    id: 'three',
    title: 'Three findings',
    unit: { family: 'Three findings' },
    defaults: { reliability: 1, unlisted: 0, fixRate: 1, escalate: 60 },
    tests: { x: test(2, 'good', 'bad'), y: test(3, 'good', 'bad') },
    findings: { a: finding('bad', 'good'), b: finding('good', 'bad'), c: finding('good', 'good') },
    symptoms: {
      dead: {
        title: 'Dead',
        first: 'first',
        weights: { a: 1, b: 3, c: 1 },
        steps: {
          first: { test: 'x', then: { good: { go: 'second' }, bad: { go: 'finding:a' } } },
          second: { test: 'y', then: { good: { go: 'finding:c' }, bad: { go: 'finding:b' } } },
        },
      },
    },
  };
}
