import { describe, expect, it } from 'vitest';
import { isBackOnPath } from '../../app/bench/job/back-on-path.ts';
import { advance, compileChart, startWalk, type JobEvent } from '../../trees/chart/index.ts';
import { dunlinTree } from '../support/dunlin-tree.ts';

const OPEN: JobEvent = { kind: 'change', axis: 'shell', to: 'open' };
const CLOSE: JobEvent = { kind: 'change', axis: 'shell', to: 'closed' };
const SKIP: JobEvent = { kind: 'skip', test: 'row-look', reason: 'No loupe' };
const TO_TAP: JobEvent = { kind: 'turn-to', test: 'tap' };
const TAP: JobEvent = { kind: 'answer', test: 'tap', result: 'r1' };
const TO_SOUND: JobEvent = { kind: 'turn-to', test: 'sound' };
const SOUND: JobEvent = { kind: 'answer', test: 'sound', result: 'r1' };

/** For each event whether it has led back to the path. */
function told(symptom: string, ...events: readonly JobEvent[]): readonly boolean[] {
  let walk = startWalk(compileChart(dunlinTree()), symptom);
  return events.map((event) => {
    const next = advance(walk, event);
    if (!next.ok) throw new Error(next.refusal.message);
    const is = isBackOnPath(walk, event, next.walk);
    walk = next.walk;
    return is;
  });
}

describe('back on the path', () => {
  it('is told at the answer that lets the path be met again, and at no other event', () => {
    const events = [OPEN, SKIP, TO_TAP, CLOSE, TAP, TO_SOUND, SOUND, { kind: 'take-back' } as const];
    expect(told('faint', ...events)).toEqual([false, false, false, false, false, false, true, false]);
  });

  it('is no news where a test was turned to from the path', () => {
    expect(told('faint', TO_SOUND, SOUND)).toEqual([false, false]);
  });

  it('is no news where what is taken back is the test left out', () => {
    expect(told('faint', OPEN, SKIP, { kind: 'take-back' })).toEqual([false, false, false]);
  });

  it('is never told where the symptom has no path', () => {
    expect(told('stops', TO_TAP, TAP, TO_SOUND, SOUND)).toEqual([false, false, false, false]);
  });
});
