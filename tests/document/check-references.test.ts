import { describe, expect, it } from 'vitest';
import {
  addRatio,
  axisOf,
  findingOf,
  mustHave,
  outline,
  problemsAfter,
  stepOf,
  symptomOf,
  testOf,
  type Case,
} from './parts.ts';

const references: readonly Case[] = [
  ['unknown-state', '/bench/shell/start', (d) => void (axisOf(d, 'shell').start = 'ajar')],
  [
    'unknown-state',
    '/bench/power/changes/0/from',
    (d) =>
      void mustHave(axisOf(d, 'power').changes).unshift({ from: 'hot', to: 'off', minutes: 1, say: 'x' }),
  ],
  [
    'unknown-state',
    '/bench/power/changes/2/to',
    (d) => void mustHave(axisOf(d, 'power').changes).push({ from: 'off', to: 'hot', minutes: 1, say: 'x' }),
  ],
  ['unknown-axis', '/tests/tone/needs/lid', (d) => void (testOf(d, 'tone').needs = { lid: 'open' })],
  [
    'unknown-axis',
    '/tests/tone/needs/constructor',
    (d) => void (testOf(d, 'tone').needs = { constructor: 'open' }),
  ],
  ['unknown-state', '/tests/tone/needs/power', (d) => void (testOf(d, 'tone').needs = { power: 'hot' })],
  [
    'unknown-state',
    '/findings/panel-dead/remedy/needs/power',
    (d) => void (findingOf(d, 'panel-dead').remedy.needs = { power: 'hot' }),
  ],
  [
    'unknown-axis',
    '/interlocks/0/change/lid',
    (d) => void (mustHave(d.interlocks?.[0]).change['lid'] = 'open'),
  ],
  [
    'unknown-test',
    '/interlocks/0/until/heat',
    (d) => void (mustHave(d.interlocks?.[0]).until['heat'] = ['clear']),
  ],
  [
    'unknown-result',
    '/interlocks/0/until/supply-resistance/1',
    (d) => void mustHave(d.interlocks?.[0]?.until['supply-resistance']).push('fine'),
  ],
  [
    'unknown-test',
    '/findings/panel-dead/prove/1',
    (d) => void mustHave(findingOf(d, 'panel-dead').prove).push('heat'),
  ],
  [
    'unknown-test',
    '/findings/panel-dead/remedy/disturbs/1',
    (d) => void mustHave(findingOf(d, 'panel-dead').remedy.disturbs).push('heat'),
  ],
  [
    'unknown-test',
    '/findings/panel-dead/expects/constructor',
    (d) => void (findingOf(d, 'panel-dead').expects = { constructor: 'none' }),
  ],
  [
    'unknown-result',
    '/findings/panel-dead/expects/border',
    (d) => void (findingOf(d, 'panel-dead').expects = { border: 'gone' }),
  ],
  [
    'unknown-result',
    '/findings/panel-dead/expects/border/gone',
    (d) => void (findingOf(d, 'panel-dead').expects = { border: { gone: 1 } }),
  ],
  [
    'unknown-step',
    '/findings/panel-dead/otherwise',
    (d) => void (findingOf(d, 'panel-dead').otherwise = 'nowhere'),
  ],
  [
    'unknown-step',
    '/findings/panel-dead/otherwise',
    (d) => void (findingOf(d, 'panel-dead').otherwise = 'symptom:no-sound/look'),
  ],
  [
    'unknown-symptom',
    '/findings/panel-dead/otherwise',
    (d) => void (findingOf(d, 'panel-dead').otherwise = 'symptom:constructor'),
  ],
  [
    'unknown-finding',
    '/symptoms/no-sound/weights/constructor',
    (d) => void (symptomOf(d, 'no-sound').weights = { constructor: 1, 'speaker-open': 1 }),
  ],
  ['unknown-step', '/symptoms/no-sound/first', (d) => void (symptomOf(d, 'no-sound').first = 'constructor')],
  [
    'missing-steps',
    '/symptoms/hum/first',
    (d) => void (d.symptoms['hum'] = { title: 'Hum', first: 'listen', weights: { 'speaker-open': 1 } }),
  ],
  [
    'unknown-test',
    '/symptoms/no-sound/steps/listen/test',
    (d) => void (stepOf(d, 'no-sound', 'listen').test = 'constructor'),
  ],
  [
    'unknown-result',
    '/symptoms/no-sound/steps/listen/then/faint',
    (d) => void (stepOf(d, 'no-sound', 'listen').then['faint'] = { go: 'finding:speaker-open' }),
  ],
  [
    'unknown-step',
    '/symptoms/no-sound/steps/listen/then/heard/go',
    (d) => void (stepOf(d, 'no-sound', 'listen').then['heard'] = { go: 'look' }),
  ],
  [
    'unknown-finding',
    '/symptoms/no-sound/steps/listen/then/heard/go',
    (d) => void (stepOf(d, 'no-sound', 'listen').then['heard'] = { go: 'finding:constructor' }),
  ],
  [
    'unknown-symptom',
    '/symptoms/no-sound/steps/listen/then/heard/go',
    (d) => void (stepOf(d, 'no-sound', 'listen').then['heard'] = { go: 'symptom:hum' }),
  ],
  ['reserved-id', '/findings/unlisted', (d) => void (d.findings['unlisted'] = findingOf(d, 'panel-dead'))],
];

describe('the check of references', () => {
  it.each([...references])('reports %s at %s and nothing else', (rule, at, change) => {
    expect(outline(problemsAfter(change))).toEqual([['error', rule, at]]);
  });

  it('reports a ratio to a test that is not there, at each band', () => {
    const problems = problemsAfter((d) => {
      addRatio(d, 'constructor');
    });
    expect(outline(problems)).toEqual([
      ['error', 'unknown-test', '/tests/heat/results/cold/band/of'],
      ['error', 'unknown-test', '/tests/heat/results/hot/band/of'],
    ]);
  });
});
