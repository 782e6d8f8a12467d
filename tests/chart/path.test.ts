import { describe, expect, it } from 'vitest';
import {
  advance,
  compileChart,
  replay,
  standing,
  startWalk,
  type JobEvent,
} from '../../trees/chart/index.ts';
import { smallDocument, smallTree, treeOf } from '../support/trees.ts';
import { after, measured, refusalCode, stateOf } from './walking.ts';

const chart = compileChart(smallTree());
const dark = startWalk(chart, 'dark-screen');

const open: JobEvent = { kind: 'change', axis: 'shell', to: 'open' };
const on: JobEvent = { kind: 'change', axis: 'power', to: 'on' };
const clear = measured('supply-resistance', 'clear', 300);
const good = measured('rail-in', 'good', 5);
const powered = after(dark, open, clear, on);

describe('a walk along the path', () => {
  it('starts at the path’s first step with every axis at its start', () => {
    expect(standing(dark)).toMatchObject({
      step: { symptom: 'dark-screen', step: 'short' },
      bench: { power: 'off', shell: 'closed' },
      interlocks: ['barred'],
      job: { symptom: 'dark-screen', answers: [], skips: [], remedies: [], era: 0 },
    });
  });

  it('asks for the changeovers that a test needs before it asks the test', () => {
    expect(standing(dark).act).toMatchObject({
      kind: 'change',
      axis: 'shell',
      change: { from: 'closed', to: 'open', minutes: 2 },
      wanted: { kind: 'test', test: 'supply-resistance' },
      after: [],
    });
    expect(standing(after(dark, open)).act).toEqual({
      kind: 'test',
      test: 'supply-resistance',
      purpose: { kind: 'path', step: { symptom: 'dark-screen', step: 'short' } },
    });
  });

  it('opens the interlock by an allowed answer, so that the power may go on', () => {
    const tested = after(dark, open, clear);
    expect(standing(tested).interlocks).toEqual(['open']);
    expect(standing(tested).act).toMatchObject({ kind: 'change', axis: 'power', change: { to: 'on' } });
    expect(standing(after(tested, on)).act).toMatchObject({ kind: 'test', test: 'rail-in' });
  });

  it('goes on by the branch of the answer to a finding', () => {
    const found = after(powered, measured('rail-in', 'low', 3));
    expect(standing(found).act).toEqual({ kind: 'finding', finding: 'converter-low' });
    expect(standing(found).step).toBeNull();
  });

  it('goes past every step whose test was answered before out of order', () => {
    const early = after(powered, { kind: 'answer', test: 'border', result: 'none' }, good);
    expect(standing(early).step).toEqual({ symptom: 'dark-screen', step: 'far' });
    const far = after(early, measured('rail-far', 'good', 4.9));
    expect(standing(far).act).toEqual({ kind: 'finding', finding: 'panel-dead' });
  });

  it('crosses into another symptom’s path', () => {
    const crossed = after(powered, good, measured('rail-far', 'good', 4.9), {
      kind: 'answer',
      test: 'border',
      result: 'whole',
    });
    expect(standing(crossed).step).toEqual({ symptom: 'no-sound', step: 'listen' });
    expect(standing(after(crossed, { kind: 'answer', test: 'tone', result: 'silent' })).act).toEqual({
      kind: 'finding',
      finding: 'speaker-open',
    });
  });

  it('is adrift from the start where the symptom has no path', () => {
    const document = smallDocument();
    document.symptoms = { 'no-sound': { title: 'No sound', weights: { 'speaker-open': 1 } } };
    const walk = startWalk(compileChart(treeOf(document)), 'no-sound');
    expect(standing(walk).act).toEqual({ kind: 'adrift', because: 'no-path' });
    expect([...standing(walk).allows].sort()).toEqual(['change', 'close', 'start-remedy', 'turn-to']);
  });

  it('throws unknown-symptom for a symptom the tree has not, and so for an inherited name', () => {
    expect(() => startWalk(chart, 'constructor')).toThrow(
      expect.objectContaining({ code: 'unknown-symptom' }),
    );
  });
});

describe('a skip', () => {
  const skip: JobEvent = { kind: 'skip', test: 'supply-resistance', reason: 'No probe', as: 'clear' };

  it('goes on as if the test had given a result, and is no answer', () => {
    const walk = after(dark, skip);
    expect(standing(walk).step?.step).toBe('supply');
    expect(standing(walk).job).toMatchObject({
      answers: [],
      skips: [{ test: 'supply-resistance', as: 'clear', reason: 'No probe' }],
    });
  });

  it('opens no interlock: its test is asked for the interlock’s sake', () => {
    expect(standing(after(dark, skip, open)).act).toMatchObject({
      kind: 'test',
      test: 'supply-resistance',
      purpose: { kind: 'interlock', interlock: 0, wanted: { kind: 'test', test: 'rail-in' } },
    });
  });

  it('gives way to an answer given later', () => {
    const walk = after(dark, skip, open, measured('supply-resistance', 'short', 2));
    expect(standing(walk).act).toEqual({ kind: 'finding', finding: 'capacitor-short' });
    expect(standing(walk).job.skips).toEqual([]);
  });

  it.each<[string, JobEvent, string]>([
    ['another test than the current one', { ...skip, test: 'border', as: 'none' }, 'not-current'],
    ['a test the tree has not', { ...skip, test: 'constructor' }, 'unknown-test'],
    ['a result the test has not', { ...skip, as: 'constructor' }, 'unknown-result'],
  ])('is refused for %s', (_, event, code) => {
    expect(refusalCode(dark, event)).toBe(code);
  });

  it('is refused for the test of an interlock, and taken for the test that the changeover is for', () => {
    const barred = after(dark, skip, open);
    expect(refusalCode(barred, skip)).toBe('interlock-not-skipped');
    expect(refusalCode(barred, { ...skip, test: 'rail-in', as: 'good' })).toBe('taken');
  });

  it('is refused aside for a test that has an answer, and otherwise returns to the path', () => {
    const answered = after(powered, { kind: 'turn-to', test: 'supply-resistance' });
    expect(refusalCode(answered, skip)).toBe('already-answered');
    const aside = after(
      powered,
      { kind: 'turn-to', test: 'border' },
      { kind: 'skip', test: 'border', reason: 'x', as: 'none' },
    );
    expect(standing(aside).step?.step).toBe('supply');
  });
});

describe('a test made aside', () => {
  it('is prepared for, asked, and leads back to the path when it is answered', () => {
    const aside = after(powered, { kind: 'turn-to', test: 'tone' });
    expect(standing(aside)).toMatchObject({
      act: { kind: 'test', test: 'tone', purpose: { kind: 'aside' } },
      step: null,
    });
    expect(standing(after(aside, { kind: 'answer', test: 'tone', result: 'heard' })).step?.step).toBe(
      'supply',
    );
  });

  it('needs its interlocks too', () => {
    const aside = after(dark, { kind: 'turn-to', test: 'tone' });
    expect(standing(aside).act).toMatchObject({
      kind: 'change',
      axis: 'shell',
      wanted: { test: 'supply-resistance' },
    });
    expect(standing(after(aside, open)).act).toMatchObject({
      purpose: { kind: 'interlock', wanted: { kind: 'test', test: 'tone' } },
    });
  });

  it('stays while other tests are answered, and is left by turning back or to another', () => {
    const aside = after(powered, { kind: 'turn-to', test: 'tone' });
    expect(standing(after(aside, good)).act).toMatchObject({ test: 'tone' });
    expect(standing(after(aside, { kind: 'turn-to', test: 'border' })).act).toMatchObject({ test: 'border' });
    expect(standing(after(aside, { kind: 'turn-back' })).step?.step).toBe('supply');
    expect(refusalCode(powered, { kind: 'turn-back' })).toBe('not-aside');
    expect(refusalCode(powered, { kind: 'turn-to', test: 'constructor' })).toBe('unknown-test');
  });
});

describe('taking back', () => {
  it('leaves the walk as if the last event had never been, again and again', () => {
    const events = [open, clear, on, good];
    let walk = after(dark, ...events);
    for (let left = events.length - 1; left >= 0; left -= 1) {
      walk = after(walk, { kind: 'take-back' });
      expect(stateOf(walk)).toEqual(stateOf(after(dark, ...events.slice(0, left))));
      expect(walk.trail).toEqual(events.slice(0, left));
    }
    expect(refusalCode(walk, { kind: 'take-back' })).toBe('nothing-to-take-back');
  });
});

describe('replay', () => {
  it('says which event was refused and why', () => {
    expect(replay(chart, 'dark-screen', [open, on, clear])).toMatchObject({
      ok: false,
      at: 1,
      refusal: { code: 'barred' },
    });
    expect(replay(chart, 'dark-screen', [{ kind: 'take-back' }])).toMatchObject({ ok: false, at: 0 });
  });

  it('takes back no more events than there are', () => {
    const back: JobEvent = { kind: 'take-back' };
    expect(replay(chart, 'dark-screen', [open, back, back])).toMatchObject({
      ok: false,
      at: 2,
      refusal: { code: 'nothing-to-take-back' },
    });
    const again = replay(chart, 'dark-screen', [open, back, open, clear, back]);
    expect(again.ok && stateOf(again.walk)).toEqual(stateOf(after(dark, open)));
  });

  it('refuses an event that could not be taken although it was taken back', () => {
    expect(replay(chart, 'dark-screen', [on, { kind: 'take-back' }])).toMatchObject({ ok: false, at: 0 });
  });
});

describe('closing', () => {
  it.each(['no-fault-found', 'beyond-economic-repair', 'declined', 'passed-on'] as const)(
    'as %s is taken from any open place, and then only taking back is',
    (outcome) => {
      const closed = after(powered, { kind: 'close', outcome, note: 'Why' });
      expect(standing(closed)).toMatchObject({
        act: { kind: 'closed', outcome },
        job: { outcome, note: 'Why' },
      });
      expect([...standing(closed).allows]).toEqual(['take-back']);
      expect(refusalCode(closed, good)).toBe('closed');
      expect(refusalCode(closed, { kind: 'change', axis: 'power', to: 'off' })).toBe('closed');
      expect(standing(after(closed, { kind: 'take-back' })).act).toMatchObject({ test: 'rail-in' });
    },
  );

  it('as fixed is refused without a proof', () => {
    expect(refusalCode(powered, { kind: 'close', outcome: 'fixed' })).toBe('not-mended');
  });
});

describe('an event that is none', () => {
  it('is refused as malformed', () => {
    expect(advance(dark, { kind: 'dance' } as unknown as JobEvent)).toMatchObject({
      ok: false,
      refusal: { code: 'malformed-event' },
    });
    expect(refusalCode(powered, measured('rail-in', 'good', Number.NaN))).toBe('malformed-event');
  });
});
