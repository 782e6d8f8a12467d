import { describe, expect, it } from 'vitest';
import { axisOf, findingOf, mustHave, outline, problemsAfter, testOf, type Case } from './parts.ts';
import type { TreeDocument } from '../support/trees.ts';

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

  it.each([
    'Look at the primary side of the adapter.',
    'Keep off the live conductor.',
    'Expect 230 V at the socket.',
    'Expect 120VAC.',
    'Plug the 110 volt supply in.',
    'Put the 240 V AC lead in.',
    'Put a charged 18650 in.',
    'Put two INR21700 cells in.',
    'Look for a swollen cell.',
    'See that no cell is punctured.',
    'Press the CR2032 down.',
    'Unplug the Li\u2011ion pack.',
  ])('asks for a caution at: %s', (words) => {
    const problems = problemsAfter((d) => void (testOf(d, 'tone').ask = words));
    expect(outline(problems)).toEqual([['warning', 'missing-caution', '/tests/tone']]);
  });

  it('reads the titles of results too', () => {
    const problems = problemsAfter((d) => {
      mustHave(testOf(d, 'tone').results['silent']).title = 'Swollen battery';
    });
    expect(outline(problems)).toEqual([['warning', 'missing-caution', '/tests/tone']]);
  });

  it('does not take a caution of the changeover into the needed bench state for the test’s or remedy’s own', () => {
    const problems = problemsAfter((d) => {
      testOf(d, 'tone').ask = 'Listen to the backlight inverter.';
      findingOf(d, 'panel-dead').remedy.steps = ['Unplug the Li-ion cell.'];
      for (const axis of ['power', 'shell'])
        for (const change of mustHave(axisOf(d, axis).changes)) change.cautions = ['Keep off.'];
    });
    expect(outline(problems)).toEqual([
      ['warning', 'missing-caution', '/tests/tone'],
      ['warning', 'missing-caution', '/findings/panel-dead/remedy'],
    ]);
  });

  it('is content with a caution of the test’s, the remedy’s or the changeover’s own', () => {
    const problems = problemsAfter((d) => {
      Object.assign(testOf(d, 'tone'), { ask: 'Listen to the inverter.', cautions: ['Keep off the tube.'] });
      Object.assign(findingOf(d, 'panel-dead').remedy, {
        steps: ['Fit a LiPo cell.'],
        cautions: ['Tape it.'],
      });
      Object.assign(mustHave(axisOf(d, 'shell').changes[0]), { say: 'Mains plug out.', cautions: ['Wait.'] });
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
    'Put four LR6 cells in and measure each cell; take out a battery that is flat.',
    'Expect 1.230 V, 0,240 V or 230 mV; 2400 V is no reading of this rail.',
    'Expect 17500 ohm, and 18 500 Hz at diode CR101.',
    'Look for swollen capacitors on the live picture.',
  ])('asks for no caution at harmless words: %s', (words) => {
    expect(problemsAfter((d) => void (testOf(d, 'tone').ask = words))).toEqual([]);
  });

  it.each([
    'Measure across the cell.',
    'Battery unplugged, look at the rail.',
    'Touch the cell: is it cool?',
    'Charge the battery for a minute.',
    'Heat the joint beside the cell.',
  ])('takes a plain cell for lithium in a tree that says lithium anywhere: %s', (words) => {
    const change = (summary: string) => (d: TreeDocument) => {
      d.summary = summary;
      testOf(d, 'tone').ask = words;
      findingOf(d, 'panel-dead').remedy.steps = [words];
    };
    expect(problemsAfter(change('Runs on LR6 cells.'))).toEqual([]);
    expect(outline(problemsAfter(change('Runs on one Li-ion cell.')))).toEqual([
      ['warning', 'missing-caution', '/tests/tone'],
      ['warning', 'missing-caution', '/findings/panel-dead/remedy'],
    ]);
  });

  it('finds an act on the cell within one sentence only, and none in a reason', () => {
    const problems = problemsAfter((d) => {
      d.summary = 'Runs on one Li-ion cell.';
      findingOf(d, 'panel-dead').because = 'Somebody has charged the cell.';
      testOf(d, 'tone').ask = 'The cell lies beneath. Press the speaker lightly; measure the solar cell.';
    });
    expect(problems).toEqual([]);
  });

  it('judges a changeover by what it says itself', () => {
    const problems = problemsAfter((d) => {
      d.summary = 'Runs on one Li-ion cell.';
      mustHave(axisOf(d, 'shell').changes[1]).say = 'Plug the cell in and close the back.';
    });
    expect(outline(problems)).toEqual([['warning', 'missing-caution', '/bench/shell/changes/1']]);
  });
});
