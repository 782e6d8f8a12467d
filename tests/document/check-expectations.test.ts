import { describe, expect, it } from 'vitest';
import { findingOf, mustHave, outline, problemsAfter, stepOf, testOf, type Case } from './parts.ts';
import type { TreeDocument } from '../support/trees.ts';

const proofs: readonly Case[] = [
  ['missing-proof', '/findings/panel-dead/prove', (d) => void delete findingOf(d, 'panel-dead').prove],
  [
    'duplicate-entry',
    '/findings/panel-dead/prove/1',
    (d) => void mustHave(findingOf(d, 'panel-dead').prove).push('border'),
  ],
  [
    'duplicate-entry',
    '/findings/panel-dead/remedy/disturbs/1',
    (d) => void mustHave(findingOf(d, 'panel-dead').remedy.disturbs).push('supply-resistance'),
  ],
  [
    'proof-unreachable',
    '/findings/panel-dead/prove/1',
    (d) => {
      d.tests['heat'] = {
        ...testOf(d, 'supply-resistance'),
        results: { cold: { title: 'Cold', band: { to: 0 } }, hot: { title: 'Hot', band: { from: 0 } } },
      };
      mustHave(findingOf(d, 'panel-dead').prove).push('heat');
    },
  ],
];

const measures: readonly Case[] = [
  ['duplicate-entry', '/unit/boards/1', (d) => void (d.unit.boards = ['A1', 'A1', 'B1'])],
  ...(
    [
      ['dc-volts', 'A'],
      ['ohms', 'V'],
      ['continuity', 's'],
      ['diode', 'ohm'],
      ['dc-amps', 'degC'],
    ] as const
  ).map(([instrument, unit]): Case => [
    'unit-unlike-instrument',
    '/tests/rail-in/reading/unit',
    (d) => void Object.assign(testOf(d, 'rail-in'), { instrument, reading: { unit } }),
  ]),
];

const expectations: readonly Case[] = [
  [
    'findings-alike',
    '/findings/panel-dead',
    (d) => {
      d.findings['panel-wrong'] = findingOf(d, 'panel-dead');
      stepOf(d, 'dark-screen', 'look-again').then['good'] = { go: 'finding:panel-wrong' };
      for (const id of ['panel-dead', 'panel-wrong'])
        findingOf(d, id).expects = { ...findingOf(d, id).expects, tone: { heard: 0.5, silent: 0.5 } };
    },
  ],
  [
    'result-unexpected',
    '/tests/rail-in/results/high',
    (d) => {
      findingOf(d, 'converter-high').expects = { 'rail-in': { good: 0.5, low: 0.5 } };
      mustHave(stepOf(d, 'dark-screen', 'supply').then['high']).weight = 0;
      expectGoodRail(d);
    },
  ],
  [
    'expectation-against-path',
    '/symptoms/dark-screen/steps/supply/then/high',
    (d) => void (findingOf(d, 'converter-high').expects = { 'rail-in': 'good' }),
  ],
  [
    'expectation-against-path',
    '/symptoms/dark-screen/steps/supply/then/high',
    (d) => void (findingOf(d, 'converter-high').expects = { 'rail-in': { good: 1, high: 0 } }),
  ],
];

describe('the check of proofs and expectations', () => {
  it.each([...proofs, ...measures, ...expectations])(
    'warns of %s at %s and nothing else',
    (rule, at, change) => {
      expect(outline(problemsAfter(change))).toEqual([['warning', rule, at]]);
    },
  );

  it.each([
    ['scope', 'Hz'],
    ['hand', 'degC'],
    ['diode', 'V'],
    ['continuity', 'ohm'],
  ] as const)('lets %s read in %s', (instrument, unit) => {
    const change = { instrument, reading: { unit } };
    expect(problemsAfter((d) => void Object.assign(testOf(d, 'rail-in'), change))).toEqual([]);
  });

  it('names all findings of a group that no test tells apart, once', () => {
    const problems = problemsAfter((d) => {
      const unknown = { ...findingOf(d, 'panel-dead'), expects: {} };
      for (const id of ['one', 'two', 'three']) d.findings[id] = unknown;
      // An even split says no more than nothing.
      d.findings['two'] = { ...unknown, expects: { tone: { heard: 0.5, silent: 0.5 } } };
      d.symptoms['hum'] = { title: 'Hum', weights: { one: 1, two: 1, three: 1 } };
    });
    expect(problems.map(({ rule, at }) => [rule, at])).toEqual([['findings-alike', '/findings/one']]);
    expect(problems[0]?.message).toContain('“one”, “two”, “three”');
  });
});

describe('a branch to a finding that never gives its result', () => {
  const againstBy = (weight: number): readonly string[] => {
    const problems = problemsAfter((d) => {
      const { then } = stepOf(d, 'dark-screen', 'supply');
      mustHave(then['low']).go = 'finding:converter-high';
      mustHave(then['low']).weight = weight;
      mustHave(then['high']).weight = 1;
    });
    return problems.filter(({ rule }) => rule === 'expectation-against-path').map(({ at }) => at);
  };

  it('is not said to go against the path where it is taken no oftener than the test is wrong', () => {
    // The rail's test has reliability 0.98, and 0.019/1.019 of the finding's units come by the other result.
    expect(againstBy(0.019)).toEqual([]);
    expect(againstBy(0.03)).toEqual(['/symptoms/dark-screen/steps/supply/then/low']);
  });

  it('is not said to go against the path where no unit takes it', () => {
    expect(againstBy(0)).toEqual([]);
  });
});

/** Every finding but those that name another result expects the 5 V rail in limits, so that none is unknown. */
function expectGoodRail(document: TreeDocument): void {
  for (const finding of Object.values(document.findings)) {
    finding.expects = { 'rail-in': 'good', ...finding.expects };
  }
}
