import { describe, expect, it } from 'vitest';
import { compileChart, standing, startWalk, type JobEvent, type Walk } from '../../trees/chart/index.ts';
import type { Tree } from '../../trees/document/index.ts';
import { smallDocument, smallTree, treeOf, type TreeDocument } from '../support/trees.ts';
import { after, measured, refusalCode } from './walking.ts';

const dark = startWalk(compileChart(smallTree()), 'dark-screen');
const open: JobEvent = { kind: 'change', axis: 'shell', to: 'open' };
const on: JobEvent = { kind: 'change', axis: 'power', to: 'on' };
const off: JobEvent = { kind: 'change', axis: 'power', to: 'off' };
const clear = measured('supply-resistance', 'clear', 300);

/** The small tree with its bench, interlocks or tests changed. */
function walkOf(change: (document: TreeDocument) => void): Walk {
  const document = smallDocument();
  change(document);
  return startWalk(compileChart(treeOf(document)), 'dark-screen');
}

describe('a changeover', () => {
  it.each<[JobEvent, string]>([
    [on, 'barred'],
    [{ kind: 'change', axis: 'constructor', to: 'on' }, 'unknown-axis'],
    [{ kind: 'change', axis: 'shell', to: 'closed' }, 'no-such-changeover'],
    [open, 'taken'],
  ])('meets %j at the start with %s', (event, code) => {
    expect(refusalCode(dark, event)).toBe(code);
  });

  it('made by hand counts as one that was asked for', () => {
    expect(standing(after(dark, open, clear, on, off)).act).toMatchObject({
      kind: 'change',
      change: { to: 'on' },
    });
  });

  it('goes out of a watched state before the others, and into one after them', () => {
    const swapped = walkOf((document) => {
      const { power, shell } = document.bench ?? {};
      if (power !== undefined && shell !== undefined) document.bench = { shell, power };
      const tone = document.tests['tone'];
      if (tone !== undefined) tone.needs = { power: 'on', shell: 'closed' };
      const resistance = document.tests['supply-resistance'];
      if (resistance !== undefined) resistance.needs = { power: 'off', shell: 'closed' };
    });
    const up = after(swapped, clear, open, { kind: 'turn-to', test: 'tone' });
    expect(order(up)).toEqual(['shell closed', 'power on']);
    const down = after(up, { kind: 'change', axis: 'shell', to: 'closed' }, on, open, {
      kind: 'turn-to',
      test: 'supply-resistance',
    });
    expect(order(down)).toEqual(['power off', 'shell closed']);
  });

  it('leaves alone what the interlock’s test needs until that test is made', () => {
    const walk = walkOf(({ tests }) => {
      const { tone } = tests;
      if (tone !== undefined) tone.needs = { power: 'on', shell: 'closed' };
    });
    const aside = after(walk, { kind: 'turn-to', test: 'tone' }, open);
    expect(standing(aside).act).toMatchObject({ test: 'supply-resistance', purpose: { kind: 'interlock' } });
    expect(order(after(aside, clear))).toEqual(['shell closed', 'power on']);
  });

  it('makes the test of an interlock that can be made as the bench stands before another’s', () => {
    const walk = startWalk(compileChart(jigTree()), 'noise');
    expect(order(walk)).toEqual(['jig left']);
    expect(standing(after(walk, { kind: 'change', axis: 'jig', to: 'left' })).act).toMatchObject({
      test: 'opens-power',
      purpose: { kind: 'interlock', interlock: 0 },
    });
  });

  it('is not asked for on a way that an interlock bars for good', () => {
    const walk = walkOf(({ tests }) => {
      const { tone } = tests;
      if (tone !== undefined) tone.needs = { power: 'on', shell: 'closed' };
    });
    const shorted = after(walk, open, measured('supply-resistance', 'short', 1), {
      kind: 'turn-to',
      test: 'tone',
    });
    expect(standing(shorted).act).toEqual({
      kind: 'barred',
      interlock: 0,
      wanted: { kind: 'test', test: 'tone' },
    });
  });

  it('is not asked for where another on the same way is barred for good', () => {
    const walk = walkOf((document) => {
      const { power } = document.bench ?? {};
      if (power === undefined) return;
      document.bench = { ...document.bench, backlight: power };
      document.interlocks?.push({ change: { backlight: 'on' }, until: { tone: ['heard'] }, because: 'No.' });
      const { tone, border } = document.tests;
      if (tone !== undefined) tone.needs = {};
      if (border !== undefined) border.needs = { power: 'on', backlight: 'on' };
    });
    const silent = after(
      walk,
      { kind: 'answer', test: 'tone', result: 'silent' },
      { kind: 'turn-to', test: 'border' },
    );
    expect(standing(silent).act).toMatchObject({ kind: 'barred', interlock: 1 });
  });

  it('comes by the way with the fewest minutes', () => {
    const walk = walkOf(({ bench }) => {
      const shell = bench?.['shell'];
      if (shell === undefined) return;
      shell.states = { ...shell.states, ajar: { title: 'Ajar' } };
      shell.changes = [
        ...(shell.changes ?? []),
        { from: 'closed', to: 'ajar', minutes: 0.5, say: 'Loosen it.' },
        { from: 'ajar', to: 'open', minutes: 1, say: 'Lift it.' },
      ];
    });
    expect(order(walk)).toEqual(['shell ajar', 'shell open']);
  });

  it('goes round a state that is barred for good where there is another way', () => {
    const walk = walkOf((document) => {
      const power = document.bench?.['power'];
      if (power === undefined) return;
      power.states = { ...power.states, cell: { title: 'On its cell' } };
      power.changes = [
        { from: 'off', to: 'on', minutes: 1, say: 'On.' },
        { from: 'on', to: 'cell', minutes: 1, say: 'Over.' },
        { from: 'off', to: 'cell', minutes: 9, say: 'Cell in.' },
      ];
      const tone = document.tests['tone'];
      if (tone !== undefined) tone.needs = { power: 'cell' };
    });
    const aside: JobEvent = { kind: 'turn-to', test: 'tone' };
    expect(order(after(walk, open, clear, aside))).toEqual(['power on', 'power cell']);
    expect(order(after(walk, open, measured('supply-resistance', 'short', 1), aside))).toEqual([
      'power cell',
    ]);
  });
});

function order(walk: Walk): readonly string[] {
  const { act } = standing(walk);
  if (act.kind !== 'change') throw new Error(`No changeover is asked for but ${act.kind}.`);
  return [act, ...act.after].map(({ axis, change }) => `${axis} ${change.to}`);
}

/**
 * The test wants the jig on the right and the power on. The power's interlock waits for a test with the jig on the left,
 * from where the short way to the right is through a state whose own interlock waits for a test with the jig midway.
 */
function jigTree(): Tree {
  const look = (needs: Record<string, string>): TreeDocument['tests'][string] => ({
    title: 'Look',
    ask: 'Look.',
    instrument: 'eye',
    needs,
    minutes: 1,
    results: { sound: { title: 'Sound' }, not: { title: 'Not' } },
  });
  const change = (from: string, to: string, minutes: number) => ({ from, to, minutes, say: 'Move it.' });
  const titled = (...ids: string[]) => Object.fromEntries(ids.map((id) => [id, { title: id }]));
  const document = smallDocument();
  document.bench = {
    jig: {
      title: 'Jig',
      start: 'midway',
      states: titled('left', 'midway', 'under', 'right'),
      changes: [
        change('midway', 'right', 5),
        change('midway', 'left', 5),
        change('left', 'midway', 5),
        change('left', 'under', 1),
        change('under', 'right', 1),
      ],
    },
    power: { title: 'Power', start: 'off', states: titled('off', 'on'), changes: [change('off', 'on', 1)] },
  };
  document.tests = {
    'opens-power': look({ jig: 'left' }),
    'opens-under': look({ jig: 'midway' }),
    noise: look({ jig: 'right', power: 'on' }),
  };
  document.interlocks = [
    { change: { power: 'on' }, until: { 'opens-power': ['sound'] }, because: 'No.' },
    { change: { jig: 'under' }, until: { 'opens-under': ['sound'] }, because: 'No.' },
  ];
  document.findings = {
    worn: { title: 'Worn', because: 'So.', remedy: { steps: ['Mend it.'], minutes: 1 } },
  };
  const then = { sound: { go: 'finding:worn' }, not: { go: 'finding:worn' } };
  document.symptoms = {
    noise: { title: 'Noise', first: 'first', steps: { first: { test: 'noise', then } } },
  };
  return treeOf(document);
}
