import { describe, expect, it } from 'vitest';
import { axisOf, findingOf, mustHave, outline, problemsAfter, testOf, type Case } from './parts.ts';

const cautions: readonly Case[] = [
  [
    'missing-caution',
    '/tests/tone',
    (d) => void (testOf(d, 'tone').ask = 'Listen near the MAINS side of the adapter.'),
  ],
  ['missing-caution', '/tests/tone', (d) => void (testOf(d, 'tone').title = 'Cold-cathode tube')],
  [
    'missing-caution',
    '/tests/tone',
    (d) => void (testOf(d, 'tone').ask = 'Listen to the backlight inverter.'),
  ],
  [
    'missing-caution',
    '/findings/panel-dead/remedy',
    (d) => void (findingOf(d, 'panel-dead').remedy.steps = ['Unplug the Li-ion cell.']),
  ],
  [
    'missing-caution',
    '/findings/panel-dead/remedy',
    (d) => void (findingOf(d, 'panel-dead').remedy.parts = [{ name: 'LiPo cell, 900 mAh', price: 9 }]),
  ],
  [
    'missing-caution',
    '/bench/shell/changes/0',
    (d) => void (mustHave(axisOf(d, 'shell').changes?.[0]).say = 'Open it and lift the lithium cell out.'),
  ],
];

describe('the check of cautions', () => {
  it.each([...cautions])('warns of %s at %s and nothing else', (rule, at, change) => {
    expect(outline(problemsAfter(change))).toEqual([['warning', rule, at]]);
  });

  it('takes a caution of the changeover into the needed bench state for the test’s own', () => {
    const problems = problemsAfter((d) => {
      testOf(d, 'tone').ask = 'Listen to the backlight inverter.';
      mustHave(axisOf(d, 'power').changes?.[0]).cautions = ['Keep your hands off the tube.'];
    });
    expect(problems).toEqual([]);
  });

  it('does not take the tree’s own cautions for one at the act', () => {
    const problems = problemsAfter((d) => {
      d.cautions = ['Mains can kill.'];
      testOf(d, 'tone').ask = 'Look at the mains plug.';
    });
    expect(problems.map(({ rule }) => rule)).toEqual(['missing-caution']);
  });

  it.each([
    'Measure at the logic inverter’s output.',
    'Put two alkaline cells in.',
    'Check the domains of the bus.',
    'Lipoma.',
  ])('asks for no caution at harmless words: %s', (words) => {
    expect(problemsAfter((d) => void (testOf(d, 'tone').ask = words))).toEqual([]);
  });
});
