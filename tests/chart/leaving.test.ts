import { describe, expect, it } from 'vitest';
import { compileChart, standing, startWalk, type JobEvent, type Walk } from '../../trees/chart/index.ts';
import { forkedTree } from '../support/forked-tree.ts';
import { smallTree } from '../support/trees.ts';
import { after, follow, measured, refusalCode, stateOf } from './walking.ts';

const start = startWalk(compileChart(forkedTree()), 'one');
const leaveOut = (test: string): JobEvent => ({ kind: 'skip', test, reason: 'No probe reaches' });
const answer = (test: string, result: 'yes' | 'no'): JobEvent => ({ kind: 'answer', test, result });
/** The test is turned to and answered. */
const made = (test: string, result: 'yes' | 'no'): JobEvent[] => [
  { kind: 'turn-to', test },
  answer(test, result),
];
const stepNow = (walk: Walk) => standing(walk).step?.step;
const left = after(start, leaveOut('first'));

describe('a skip that goes on as no result', () => {
  it('is kept with its reason and no result, and leaves the path', () => {
    expect(standing(left)).toMatchObject({
      act: { kind: 'adrift', because: 'skipped' },
      step: null,
      job: { answers: [], skips: [{ test: 'first', reason: 'No probe reaches' }] },
    });
    expect(standing(left).job.skips[0]).not.toHaveProperty('as');
    expect(left.snapshot.value).toHaveProperty('course', { adrift: 'skipped' });
  });

  it('leaves open to turn to any test, to start a remedy, to close and to take back', () => {
    expect([...standing(left).allows].sort()).toEqual([
      'answer',
      'close',
      'start-remedy',
      'take-back',
      'turn-to',
    ]);
    for (const test of ['first', 'second', 'third', 'fourth', 'fifth'])
      expect(refusalCode(left, { kind: 'turn-to', test })).toBe('taken');
    expect(refusalCode(left, { kind: 'start-remedy', finding: 'torn' })).toBe('taken');
    expect(refusalCode(left, { kind: 'close', outcome: 'passed-on' })).toBe('taken');
    expect(stateOf(after(left, { kind: 'take-back' }))).toEqual(stateOf(start));
  });

  it('meets the path again at the step whose test was turned to, and goes on by its answer', () => {
    expect(stepNow(after(left, ...made('second', 'yes')))).toBe('deep');
    expect(standing(after(left, ...made('second', 'no'))).act).toEqual({ kind: 'finding', finding: 'worn' });
    expect(standing(after(left, ...made('fourth', 'no'))).act).toEqual({ kind: 'finding', finding: 'torn' });
  });

  it('meets it where the test was answered without turning to it, too', () => {
    expect(stepNow(after(left, answer('second', 'yes')))).toBe('deep');
  });

  it('meets it at once where a step that follows had its answer before', () => {
    expect(stepNow(after(start, answer('second', 'yes'), leaveOut('first')))).toBe('deep');
  });

  it('goes on in another symptom’s path where that is what is met', () => {
    expect(standing(after(left, ...made('fifth', 'yes'))).act).toEqual({ kind: 'finding', finding: 'worn' });
  });

  it('meets it where most flow comes of several steps that have an answer', () => {
    expect(stepNow(after(start, answer('third', 'no'), answer('second', 'yes'), leaveOut('first')))).toBe(
      'deep',
    );
  });

  it('meets it elsewhere once a step that more flow comes to has an answer', () => {
    const right = after(left, answer('third', 'no'));
    expect(standing(right).step).toEqual({ symptom: 'two', step: 'other' });
    expect(stepNow(after(right, answer('second', 'yes')))).toBe('deep');
    expect(stepNow(after(right, ...made('second', 'yes')))).toBe('deep');
  });

  it('leaves the path again at each step that asks the same test', () => {
    const again = after(left, answer('third', 'yes'));
    expect(standing(again)).toMatchObject({ act: { kind: 'adrift', because: 'skipped' }, step: null });
    expect(again.snapshot.context.leavings).toMatchObject([
      { from: { step: 'start' }, to: { step: 'right' } },
      { from: { step: 'again' }, to: null },
    ]);
    expect(standing(after(again, answer('fourth', 'no'))).act).toEqual({ kind: 'finding', finding: 'torn' });
  });

  it('leaves the path once more for the next test that cannot be made', () => {
    const met = after(left, ...made('second', 'yes'));
    const twice = after(met, leaveOut('fourth'));
    expect(standing(twice).act).toEqual({ kind: 'adrift', because: 'skipped' });
    expect(standing(twice).job.skips.map(({ test }) => test)).toEqual(['first', 'fourth']);
  });

  it('is off the path again where neither of two answers that met it stands', () => {
    const both = after(left, answer('second', 'yes'), answer('second', 'no'));
    expect(standing(both).act).toEqual({ kind: 'contradiction', test: 'second' });
    expect(standing(after(both, { kind: 'settle', result: null })).act).toEqual({
      kind: 'adrift',
      because: 'skipped',
    });
  });

  it('gives way to an answer, and to a skip that goes on as a result', () => {
    const answered = after(left, ...made('first', 'no'));
    expect(stepNow(answered)).toBe('right');
    expect(standing(answered).job.skips).toEqual([]);
    expect(answered.snapshot.context.leavings).toEqual([]);
    const assumed = after(
      left,
      { kind: 'turn-to', test: 'first' },
      { kind: 'skip', test: 'first', reason: 'x', as: 'yes' },
    );
    expect(stepNow(assumed)).toBe('left');
    expect(standing(assumed).job.skips).toEqual([{ test: 'first', reason: 'x', as: 'yes' }]);
  });
});

describe('a test turned to and left out', () => {
  const aside = after(start, { kind: 'turn-to', test: 'fifth' }, leaveOut('fifth'));

  it('is simply not made: the course is back where it was', () => {
    expect(stepNow(aside)).toBe('start');
    expect(standing(aside).job).toMatchObject({ answers: [], skips: [{ test: 'fifth' }] });
  });

  it('is left out when the path comes to it', () => {
    const come = after(aside, answer('first', 'no'), answer('third', 'no'));
    expect(standing(come).act).toEqual({ kind: 'adrift', because: 'skipped' });
  });

  it('cannot be left out once it has an answer', () => {
    const answered = after(start, ...made('fifth', 'yes'), { kind: 'turn-to', test: 'fifth' });
    expect(refusalCode(answered, leaveOut('fifth'))).toBe('already-answered');
  });
});

describe('a test that is not left out', () => {
  const dark = startWalk(compileChart(smallTree()), 'dark-screen');
  const open: JobEvent = { kind: 'change', axis: 'shell', to: 'open' };
  const on: JobEvent = { kind: 'change', axis: 'power', to: 'on' };
  const clear = measured('supply-resistance', 'clear', 300);

  it('is that of an interlock: leaving it out at its step opens nothing, and elsewhere it is refused', () => {
    const off = after(dark, leaveOut('supply-resistance'), open, { kind: 'turn-to', test: 'border' });
    expect(standing(off).interlocks).toEqual(['barred']);
    expect(refusalCode(off, on)).toBe('barred');
    expect(standing(off).act).toMatchObject({
      kind: 'test',
      test: 'supply-resistance',
      purpose: { kind: 'interlock' },
    });
    expect(refusalCode(off, leaveOut('supply-resistance'))).toBe('interlock-not-skipped');
  });

  it('is that of a proof', () => {
    const proving = after(dark, { kind: 'start-remedy', finding: 'volume-down' }, open, {
      kind: 'remedy-done',
    });
    expect(refusalCode(proving, leaveOut('tone'))).toBe('proof-not-skipped');
  });

  it('is one that the course is not at', () => {
    expect(refusalCode(dark, leaveOut('border'))).toBe('not-current');
    expect(refusalCode(left, leaveOut('second'))).toBe('not-current');
  });

  it('keeps no remedy from being proved: a unit is mended with a test left out', () => {
    const found = after(dark, leaveOut('supply-resistance'), open, clear, on, measured('rail-in', 'low', 3));
    const done = after(
      found,
      { kind: 'start-remedy', finding: 'converter-low' },
      { kind: 'change', axis: 'power', to: 'off' },
      {
        kind: 'remedy-done',
      },
    );
    expect(standing(follow(done, () => 0)).act).toEqual({ kind: 'mended', finding: 'converter-low' });
  });
});
