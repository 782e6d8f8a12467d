import { describe, expect, it } from 'vitest';
import { compileChart, standing, startWalk, type JobEvent, type Walk } from '../../trees/chart/index.ts';
import { smallDocument, smallTree, treeOf, type TreeDocument } from '../support/trees.ts';
import { after, measured, reading, refusalCode } from './walking.ts';

const dark = startWalk(compileChart(smallTree()), 'dark-screen');
const open: JobEvent = { kind: 'change', axis: 'shell', to: 'open' };
const on: JobEvent = { kind: 'change', axis: 'power', to: 'on' };
const off: JobEvent = { kind: 'change', axis: 'power', to: 'off' };
const clear = measured('supply-resistance', 'clear', 300);
const powered = after(dark, open, clear, on);

/** The small tree with its bench, interlocks or tests changed. */
function walkOf(change: (document: TreeDocument) => void): Walk {
  const document = smallDocument();
  change(document);
  return startWalk(compileChart(treeOf(document)), 'dark-screen');
}

describe('safety', () => {
  it('asks to leave a state that an interlock bars once its answer is corrected, before all else', () => {
    const event: JobEvent = {
      kind: 'correct',
      test: 'supply-resistance',
      result: 'short',
      reading: reading(1),
    };
    const unsafe = after(powered, event);
    expect(standing(unsafe).act).toMatchObject({
      kind: 'change',
      axis: 'power',
      change: { to: 'off' },
      wanted: { kind: 'safety', interlock: 0 },
    });
    expect(refusalCode(unsafe, { kind: 'answer', test: 'border', result: 'none' })).toBe('safety-first');
    expect(standing(after(unsafe, off)).act).toEqual({ kind: 'finding', finding: 'capacitor-short' });
  });

  it('asks to leave it after a remedy done with the power on', () => {
    const walk = walkOf(({ findings }) => {
      for (const finding of Object.values(findings)) finding.remedy.needs = {};
    });
    const done = after(
      walk,
      ...powered.trail,
      { kind: 'start-remedy', finding: 'panel-dead' },
      { kind: 'remedy-done' },
    );
    expect(standing(done).act).toMatchObject({
      kind: 'change',
      change: { to: 'off' },
      wanted: { kind: 'safety' },
    });
  });

  it('takes a contradicted answer for no answer', () => {
    const contradicted = after(dark, open, clear, measured('supply-resistance', 'short', 2));
    expect(standing(contradicted).interlocks).toEqual(['barred']);
    expect(refusalCode(contradicted, on)).toBe('barred');
  });

  it('bars the way for good where the interlock’s test gave a result that is not allowed', () => {
    const walk = after(dark, open, measured('supply-resistance', 'short', 2), {
      kind: 'turn-to',
      test: 'border',
    });
    expect(standing(walk).act).toEqual({
      kind: 'barred',
      interlock: 0,
      wanted: { kind: 'test', test: 'border' },
    });
    expect([...standing(walk).allows]).toEqual(
      expect.arrayContaining(['turn-back', 'start-remedy', 'correct', 'close']),
    );
  });

  it('leaves by a changeover into no other barred state, though a way through one were shorter', () => {
    const walk = walkOf(boosted);
    const up = after(walk, open, clear, on, { kind: 'change', axis: 'power', to: 'boost' });
    const unsafe = after(up, short);
    expect(standing(unsafe).act).toMatchObject({
      kind: 'change',
      change: { from: 'boost', to: 'off' },
      after: [],
    });
  });

  it('where no changeover leads out says that the interlock does not open, and still takes answers', () => {
    const walk = walkOf((document) => {
      boosted(document);
      const { power } = document.bench ?? {};
      if (power !== undefined) power.changes = power.changes?.filter(({ from }) => from !== 'boost') ?? [];
      const { border } = document.tests;
      if (border !== undefined) border.needs = {};
    });
    const stuck = after(walk, open, clear, on, { kind: 'change', axis: 'power', to: 'boost' }, short);
    expect(standing(stuck).act).toEqual({
      kind: 'barred',
      interlock: 1,
      wanted: { kind: 'safety', interlock: 1 },
    });
    expect(refusalCode(stuck, { kind: 'answer', test: 'border', result: 'none' })).toBe('taken');
  });
});

const short: JobEvent = { kind: 'correct', test: 'supply-resistance', result: 'short', reading: reading(1) };

/** A second state of the power that the interlock watches; its short way off is through the first. */
function boosted(document: TreeDocument): void {
  const { power } = document.bench ?? {};
  if (power === undefined) return;
  power.states = { ...power.states, boost: { title: 'Boost' } };
  power.changes = [
    { from: 'off', to: 'on', minutes: 1, say: 'On.' },
    { from: 'on', to: 'off', minutes: 1, say: 'Off.' },
    { from: 'on', to: 'boost', minutes: 1, say: 'Up.' },
    { from: 'boost', to: 'on', minutes: 1, say: 'Down.' },
    { from: 'boost', to: 'off', minutes: 9, say: 'All off.' },
  ];
  document.interlocks?.push({
    change: { power: 'boost' },
    until: { 'supply-resistance': ['clear'] },
    because: 'A rail that reads as a wire must not get power.',
  });
}
