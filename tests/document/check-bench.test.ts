import { describe, expect, it } from 'vitest';
import { addRatio, axisOf, findingOf, mustHave, outline, problemsAfter, testOf, type Case } from './parts.ts';
import type { TreeDocument } from '../support/trees.ts';

const bench: readonly Case[] = [
  [
    'change-to-itself',
    '/bench/shell/changes/2',
    (d) => void mustHave(axisOf(d, 'shell').changes).push({ from: 'open', to: 'open', minutes: 1, say: 'x' }),
  ],
  [
    'duplicate-change',
    '/bench/shell/changes/2',
    (d) =>
      void mustHave(axisOf(d, 'shell').changes).push({ from: 'open', to: 'closed', minutes: 1, say: 'x' }),
  ],
  [
    'state-unreachable',
    '/tests/tone/needs/power',
    (d) => {
      axisOf(d, 'power').states['standby'] = { title: 'x' };
      testOf(d, 'tone').needs = { power: 'standby' };
    },
  ],
  [
    'state-unreachable',
    '/findings/panel-dead/remedy/needs/shell',
    (d) => {
      axisOf(d, 'shell').states['gone'] = { title: 'x' };
      findingOf(d, 'panel-dead').remedy.needs = { shell: 'gone' };
    },
  ],
  [
    'state-dead-end',
    '/bench/shell/states/open',
    (d) => {
      mustHave(axisOf(d, 'shell').changes).pop();
      testOf(d, 'tone').needs = { shell: 'closed' };
    },
  ],
  [
    'interlock-empty',
    '/interlocks/1/change',
    (d) => void mustHave(d.interlocks).push({ change: {}, until: { tone: ['heard'] }, because: 'x' }),
  ],
  [
    'interlock-empty',
    '/interlocks/1/until',
    (d) => void mustHave(d.interlocks).push({ change: { shell: 'open' }, until: {}, because: 'x' }),
  ],
  [
    'interlock-at-start',
    '/interlocks/1/change/shell',
    (d) =>
      void mustHave(d.interlocks).push({
        change: { shell: 'closed' },
        until: { 'supply-resistance': ['clear'] },
        because: 'x',
      }),
  ],
  [
    'interlock-circular',
    '/interlocks/0/until/tone',
    (d) => void (mustHave(d.interlocks?.[0]).until['tone'] = ['heard']),
  ],
];

const interlocks: readonly Case[] = [
  ['power-without-interlock', '/bench/power/states/on', (d) => void (d.interlocks = [])],
  [
    'power-without-interlock',
    '/bench/mains-side/states/on',
    (d) => void (mustHave(d.bench)['mains-side'] = { ...axisOf(d, 'power'), title: 'Supply of the display' }),
  ],
  [
    'no-safe-way-back',
    '/bench/power/states/on',
    (d) => {
      addStandby(d);
      mustHave(axisOf(d, 'power').changes).splice(
        1,
        1,
        { from: 'on', to: 'standby', minutes: 1, say: 'x' },
        { from: 'standby', to: 'off', minutes: 1, say: 'x' },
      );
      mustHave(d.interlocks?.[0]).change = { power: 'on' };
      mustHave(d.interlocks).push({
        change: { power: 'standby' },
        until: { 'supply-resistance': ['clear'] },
        because: 'x',
      });
    },
  ],
];

describe('the check of the bench and its interlocks', () => {
  it.each([...bench])('reports %s at %s and nothing else', (rule, at, change) => {
    expect(outline(problemsAfter(change))).toEqual([['error', rule, at]]);
  });

  it.each([...interlocks])('warns of %s at %s and nothing else', (rule, at, change) => {
    expect(outline(problemsAfter(change))).toEqual([['warning', rule, at]]);
  });

  it('reports two interlocks that wait for each other, at both', () => {
    const problems = problemsAfter((d) => {
      // The supply can only be measured with the shell open, which waits for a picture, which needs power.
      mustHave(d.interlocks).push({ change: { shell: 'open' }, until: { border: ['whole'] }, because: 'x' });
    });
    expect(outline(problems.filter(({ severity }) => severity === 'error'))).toEqual([
      ['error', 'interlock-circular', '/interlocks/0/until/supply-resistance'],
      ['error', 'interlock-circular', '/interlocks/1/until/border'],
    ]);
  });

  it('takes a reference’s bench state into account where an interlock’s test has ratio bands', () => {
    const problems = problemsAfter((d) => {
      addRatio(d, 'rail-in');
      mustHave(d.interlocks?.[0]).until['heat'] = ['cold'];
    });
    expect(outline(problems)).toEqual([['error', 'interlock-circular', '/interlocks/0/until/heat']]);
  });
});

function addStandby(document: TreeDocument): void {
  axisOf(document, 'power').states['standby'] = { title: 'Standby' };
}
