import { describe, expect, it } from 'vitest';
import {
  findingOf,
  mustHave,
  outline,
  problemsAfter,
  stepOf,
  symptomOf,
  testOf,
  type Case,
} from './parts.ts';

const course: readonly Case[] = [
  [
    'no-symptoms',
    '/symptoms',
    (d) => {
      d.symptoms = {};
      delete findingOf(d, 'ribbon-loose').otherwise;
    },
  ],
  ['no-way-in', '/symptoms/hum', (d) => void (d.symptoms['hum'] = { title: 'Hum' })],
  ['no-way-in', '/symptoms/hum', (d) => void (d.symptoms['hum'] = { title: 'Hum', weights: {} })],
  [
    'missing-branch',
    '/symptoms/no-sound/steps/listen/then',
    (d) => void delete stepOf(d, 'no-sound', 'listen').then['heard'],
  ],
  [
    'no-path',
    '/symptoms/no-sound/steps/listen/then/heard/go',
    (d) => {
      d.symptoms['hum'] = { title: 'Hum', weights: { 'speaker-open': 1 } };
      stepOf(d, 'no-sound', 'listen').then['heard'] = { go: 'symptom:hum' };
    },
  ],
  [
    'loop',
    '/symptoms/no-sound/steps/listen/then/heard/go',
    (d) => void (stepOf(d, 'no-sound', 'listen').then['heard'] = { go: 'listen' }),
  ],
  [
    'loop',
    '/symptoms/no-sound/steps/listen/then/heard/go',
    (d) => void (stepOf(d, 'no-sound', 'listen').then['heard'] = { go: 'symptom:dark-screen' }),
  ],
  [
    'otherwise-not-in-path',
    '/findings/volume-down/otherwise',
    (d) => void (findingOf(d, 'volume-down').otherwise = 'look-again'),
  ],
];

const weights: readonly Case[] = [
  [
    'shares-sum',
    '/findings/volume-down/expects/tone',
    (d) => void (findingOf(d, 'volume-down').expects = { tone: { heard: 0.5, silent: 0.49999 } }),
  ],
  [
    'shares-sum',
    '/findings/volume-down/expects/tone',
    (d) => void (findingOf(d, 'volume-down').expects = { tone: {} }),
  ],
  [
    'symptom-weights-zero',
    '/symptoms/no-sound/weights',
    (d) => void (symptomOf(d, 'no-sound').weights = { 'speaker-open': 0 }),
  ],
  [
    'branch-weights-zero',
    '/symptoms/no-sound/steps/listen/then',
    (d) => {
      for (const branch of Object.values(stepOf(d, 'no-sound', 'listen').then)) branch.weight = 0;
    },
  ],
];

const use: readonly Case[] = [
  [
    'finding-unreached',
    '/findings/ribbon-torn',
    (d) => void (d.findings['ribbon-torn'] = findingOf(d, 'panel-dead')),
  ],
  [
    'step-unreached',
    '/symptoms/no-sound/steps/again',
    (d) => void (mustHave(symptomOf(d, 'no-sound').steps)['again'] = stepOf(d, 'no-sound', 'listen')),
  ],
  ['test-unused', '/tests/hum', (d) => void (d.tests['hum'] = testOf(d, 'tone'))],
  [
    'otherwise-loop',
    '/findings/volume-down/otherwise',
    (d) => void (findingOf(d, 'volume-down').otherwise = 'symptom:no-sound'),
  ],
  [
    'otherwise-loop',
    '/findings/speaker-open/otherwise',
    (d) => {
      findingOf(d, 'volume-down').otherwise = 'finding:speaker-open';
      findingOf(d, 'speaker-open').otherwise = 'symptom:no-sound/listen';
    },
  ],
];

describe('the check of the paths', () => {
  it.each([...course, ...weights])('reports %s at %s and nothing else', (rule, at, change) => {
    expect(outline(problemsAfter(change))).toEqual([['error', rule, at]]);
  });

  it.each([...use])('warns of %s at %s and nothing else', (rule, at, change) => {
    expect(outline(problemsAfter(change))).toEqual([['warning', rule, at]]);
  });

  it('takes weights that name no finding for none', () => {
    expect(problemsAfter((d) => void (symptomOf(d, 'no-sound').weights = {}))).toEqual([]);
  });

  it('says the steps of a loop that crosses symptoms, once', () => {
    const [problem, ...others] = problemsAfter((d) => {
      stepOf(d, 'no-sound', 'listen').then['heard'] = { go: 'symptom:dark-screen/far' };
    });
    expect(others).toEqual([]);
    expect(problem?.message).toContain(
      'dark-screen/far → dark-screen/look → no-sound/listen → dark-screen/far',
    );
  });

  it('counts a test that some finding expects something of as used where the planner has the order', () => {
    const problems = problemsAfter((d) => {
      d.tests['hum'] = testOf(d, 'tone');
      d.symptoms['buzz'] = { title: 'Buzz', weights: { 'speaker-open': 1 } };
      findingOf(d, 'speaker-open').expects = { tone: 'silent', hum: 'silent' };
    });
    expect(problems).toEqual([]);
  });
});
