import { describe, expect, it } from 'vitest';
import { addRatio, findingOf, mustHave, outline, problemsAfter, testOf, type Case } from './parts.ts';

const bands: readonly Case[] = [
  [
    'few-results',
    '/tests/heat/results',
    (d) => {
      d.tests['heat'] = { ...testOf(d, 'tone'), results: { cold: { title: 'Cold' } } };
      mustHave(findingOf(d, 'panel-dead').prove).push('heat');
    },
  ],
  [
    'few-results',
    '/tests/heat/results',
    (d) => {
      d.tests['heat'] = { ...testOf(d, 'tone'), results: {} };
      mustHave(findingOf(d, 'panel-dead').prove).push('heat');
    },
  ],
  [
    'missing-band',
    '/tests/rail-in/results/low',
    (d) => void delete testOf(d, 'rail-in').results['low']?.band,
  ],
  [
    'band-without-reading',
    '/tests/tone/results/heard/band',
    (d) => void (mustHave(testOf(d, 'tone').results['heard']).band = { from: 1 }),
  ],
  [
    'band-empty',
    '/tests/rail-in/results/good/band',
    (d) => void (mustHave(testOf(d, 'rail-in').results['good']).band = { from: 5.25, to: 4.75 }),
  ],
  [
    'band-gap',
    '/tests/rail-in/results/low/band',
    (d) => void (mustHave(testOf(d, 'rail-in').results['low']).band = { to: 4.7 }),
  ],
  [
    'band-gap',
    '/tests/rail-in/results/high/band',
    (d) => void (mustHave(testOf(d, 'rail-in').results['high']).band = { from: 5.25, to: 9 }),
  ],
  [
    'band-gap',
    '/tests/rail-in/results/low/band',
    (d) => void (mustHave(testOf(d, 'rail-in').results['low']).band = { from: 0, to: 4.75 }),
  ],
  [
    'band-overlap',
    '/tests/rail-in/results/high/band',
    (d) => void (mustHave(testOf(d, 'rail-in').results['high']).band = { from: 5.2 }),
  ],
  [
    'band-overlap',
    '/tests/rail-in/results/good/band',
    (d) => void (mustHave(testOf(d, 'rail-in').results['good']).band = { to: 5.25 }),
  ],
  [
    'band-mixed',
    '/tests/rail-far/results',
    (d) => void (mustHave(testOf(d, 'rail-far').results['good']).band = { from: 0.96 }),
  ],
  ['band-of-chosen', '/tests/heat/results', (d) => addRatio(d, 'tone')],
  ['band-loop', '/tests/heat/results', (d) => addRatio(d, 'heat')],
  [
    'band-loop',
    '/tests/rail-far/results',
    (d) => {
      addRatio(d, 'rail-far');
      for (const { band } of Object.values(testOf(d, 'rail-far').results)) mustHave(band).of = 'heat';
    },
  ],
];

describe('the check of bands', () => {
  it.each([...bands])('reports %s at %s and nothing else', (rule, at, change) => {
    expect(outline(problemsAfter(change))).toEqual([['error', rule, at]]);
  });
});
