import { describe, expect, it } from 'vitest';
import { compileChart, standing, startWalk, type JobEvent } from '../../trees/chart/index.ts';
import { smallTree } from '../support/trees.ts';
import { after, measured, reading, refusalCode } from './walking.ts';

const dark = startWalk(compileChart(smallTree()), 'dark-screen');
const open: JobEvent = { kind: 'change', axis: 'shell', to: 'open' };
const on: JobEvent = { kind: 'change', axis: 'power', to: 'on' };
const clear = measured('supply-resistance', 'clear', 300);
const good = measured('rail-in', 'good', 5);
const powered = after(dark, open, clear, on);

describe('answers', () => {
  it('keep the reading, the reference of a ratio band and the era', () => {
    const walk = after(powered, good, measured('rail-far', 'drop', 4));
    expect(standing(walk).job.answers).toEqual([
      { test: 'supply-resistance', result: 'clear', reading: reading(300), era: 0 },
      { test: 'rail-in', result: 'good', reading: reading(5), era: 0 },
      { test: 'rail-far', result: 'drop', reading: reading(4), reference: 5, era: 0 },
    ]);
  });

  it('count beyond the meter’s range as the topmost band', () => {
    expect(standing(after(dark, open, measured('supply-resistance', 'clear', 'OL'))).interlocks).toEqual([
      'open',
    ]);
  });

  it.each<[string, JobEvent, string]>([
    ['a test the tree has not', { kind: 'answer', test: 'constructor', result: 'good' }, 'unknown-test'],
    [
      'a result the test has not',
      { kind: 'answer', test: 'border', result: 'constructor' },
      'unknown-result',
    ],
    [
      'a measured test without a reading',
      { kind: 'answer', test: 'rail-in', result: 'good' },
      'reading-missing',
    ],
    ['a chosen test with a reading', { ...measured('border', 'none', 1) }, 'reading-not-wanted'],
    ['a reading outside its result’s band', measured('rail-in', 'good', 4), 'result-mismatch'],
    ['a ratio whose reference does not stand', measured('rail-far', 'good', 5), 'reference-missing'],
    ['a test that the bench does not stand for', clear, 'needs-unmet'],
  ])('are refused for %s', (_, event, code) => {
    expect(refusalCode(powered, event)).toBe(code);
  });

  it.each<[string, number | 'OL', string]>([
    ['zero', 0, 'low'],
    ['beyond the meter’s range', 'OL', 'high'],
  ])('are refused for a ratio to a reading that was %s', (_, value, result) => {
    const walk = after(powered, measured('rail-in', result, value));
    expect(refusalCode(walk, measured('rail-far', 'good', 5))).toBe('reference-unusable');
  });

  it('ask for the reference first where a ratio test is turned to', () => {
    const aside = after(powered, { kind: 'turn-to', test: 'rail-far' });
    expect(standing(aside).act).toEqual({
      kind: 'test',
      test: 'rail-in',
      purpose: { kind: 'reference', wanted: { kind: 'test', test: 'rail-far' } },
    });
    expect(standing(after(aside, good)).act).toMatchObject({ test: 'rail-far', purpose: { kind: 'aside' } });
  });

  it('that are the same again replace the reading and contradict nothing', () => {
    const again = after(powered, good, measured('rail-in', 'good', 5.1));
    expect(standing(again).job.answers.at(-1)).toMatchObject({ reading: { value: 5.1 } });
    expect(standing(again).step).toEqual({ symptom: 'dark-screen', step: 'far' });
  });
});

describe('a contradiction', () => {
  const both = after(powered, good, measured('rail-in', 'low', 4));

  it('keeps both answers and asks which of them stands', () => {
    expect(standing(both).act).toEqual({ kind: 'contradiction', test: 'rail-in' });
    expect(standing(both).job.contradiction).toMatchObject({ result: 'low', reading: { value: 4 } });
    expect(standing(both).job.answers).toContainEqual(expect.objectContaining({ result: 'good' }));
  });

  it('goes on by the first or the second answer once settled, or asks again where neither stands', () => {
    expect(standing(after(both, { kind: 'settle', result: 'good' })).step?.step).toBe('far');
    expect(standing(after(both, { kind: 'settle', result: 'low' })).act).toMatchObject({
      finding: 'converter-low',
    });
    const neither = after(both, { kind: 'settle', result: null });
    expect(standing(neither).act).toMatchObject({ kind: 'test', test: 'rail-in', purpose: { kind: 'path' } });
    expect(standing(neither).job.answers.map(({ test }) => test)).toEqual(['supply-resistance']);
    expect([...standing(neither).allows]).toEqual(expect.arrayContaining(['skip', 'turn-to']));
  });

  it('drops what was judged against a reading that was rejected', () => {
    const judged = after(powered, good, measured('rail-far', 'good', 4.9), measured('rail-in', 'high', 6));
    const settled = after(judged, { kind: 'settle', result: 'high' });
    expect(standing(settled).job.answers.map(({ test }) => test)).toEqual(['supply-resistance', 'rail-in']);
    expect(standing(after(judged, { kind: 'settle', result: 'good' })).step?.step).toBe('look');
  });

  it.each<[JobEvent, string]>([
    [{ kind: 'answer', test: 'border', result: 'none' }, 'settle-first'],
    [{ kind: 'skip', test: 'rail-in', reason: 'x', as: 'good' }, 'settle-first'],
    [{ kind: 'turn-to', test: 'border' }, 'settle-first'],
    [{ kind: 'start-remedy', finding: 'panel-dead' }, 'settle-first'],
    [{ kind: 'remedy-done' }, 'settle-first'],
    [{ kind: 'give-up-remedy', reason: 'x' }, 'settle-first'],
    [{ kind: 'settle', result: 'high' }, 'not-one-of-the-two'],
    [{ kind: 'turn-back' }, 'not-aside'],
    [{ kind: 'close', outcome: 'passed-on' }, 'taken'],
    [{ kind: 'change', axis: 'power', to: 'off' }, 'taken'],
  ])('meets %j with %s', (event, code) => {
    expect(refusalCode(both, event)).toBe(code);
  });

  it('is settled by correcting its test, and stands through correcting another', () => {
    const corrected = after(both, { kind: 'correct', test: 'rail-in', result: 'high', reading: reading(6) });
    expect(standing(corrected).act).toMatchObject({ finding: 'converter-high' });
    expect(standing(corrected).job).not.toHaveProperty('contradiction');
    const other = after(both, {
      kind: 'correct',
      test: 'supply-resistance',
      result: 'clear',
      reading: reading(90),
    });
    expect(standing(other).act).toEqual({ kind: 'contradiction', test: 'rail-in' });
  });

  it('is not there to settle elsewhere', () => {
    expect(refusalCode(powered, { kind: 'settle', result: null })).toBe('nothing-to-settle');
  });
});

describe('a correction', () => {
  it('replaces the answer at once and sets the course out anew', () => {
    const found = after(powered, measured('rail-in', 'low', 4));
    const corrected = after(found, { kind: 'correct', test: 'rail-in', result: 'good', reading: reading(5) });
    expect(standing(corrected).step?.step).toBe('far');
  });

  it('is taken however the bench stands now, but not for a test without an answer', () => {
    const early: JobEvent = { kind: 'correct', test: 'border', result: 'none' };
    expect(refusalCode(powered, early)).toBe('nothing-to-correct');
    expect(refusalCode(powered, { ...early, test: 'constructor' })).toBe('unknown-test');
    const event: JobEvent = {
      kind: 'correct',
      test: 'supply-resistance',
      result: 'clear',
      reading: reading(60),
    };
    expect(refusalCode(powered, event)).toBe('taken');
    expect(refusalCode(powered, { ...event, result: 'short' })).toBe('result-mismatch');
  });

  it('sorts again what was judged against the corrected reading', () => {
    const judged = after(powered, measured('rail-in', 'good', 5.2), measured('rail-far', 'drop', 4.8));
    const corrected = after(judged, {
      kind: 'correct',
      test: 'rail-in',
      result: 'good',
      reading: reading(4.9),
    });
    expect(standing(corrected).job.answers.at(-1)).toMatchObject({
      test: 'rail-far',
      result: 'good',
      reference: 4.9,
    });
    expect(standing(corrected).step?.step).toBe('look');
  });

  it('drops what can no longer be judged against the corrected reading', () => {
    const judged = after(powered, good, measured('rail-far', 'good', 4.9));
    const corrected = after(judged, { kind: 'correct', test: 'rail-in', result: 'low', reading: reading(0) });
    expect(standing(corrected).job.answers.map(({ test }) => test)).toEqual(['supply-resistance', 'rail-in']);
  });
});
