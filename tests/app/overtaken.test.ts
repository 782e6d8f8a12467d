import { describe, expect, it } from 'vitest';
import { overtakenAnswers } from '../../app/bench/sheet/overtaken.ts';
import type { JobEvent } from '../../trees/chart/index.ts';

const gave = (result: string): JobEvent => ({ kind: 'answer', test: 'sound', result });
const DONE: readonly JobEvent[] = [{ kind: 'start-remedy', finding: 'jack-worn' }, { kind: 'remedy-done' }];

describe('answers that did not last', () => {
  it('are none where every test was made once', () => {
    expect(overtakenAnswers([gave('silent')]).size).toBe(0);
  });

  it('are the corrected ones, the correction itself standing', () => {
    const events = [gave('silent'), { kind: 'correct', test: 'sound', result: 'heard' } as const];
    expect([...overtakenAnswers(events)]).toEqual([[0, 'corrected']]);
  });

  it('are those a contradiction was settled against', () => {
    const events = [gave('silent'), gave('heard'), { kind: 'settle', result: 'silent' } as const];
    expect([...overtakenAnswers(events)]).toEqual([[1, 'dropped']]);
  });

  it('are both where neither of two contradicting ones stands', () => {
    const events = [gave('silent'), gave('heard'), { kind: 'settle', result: null } as const];
    expect([...overtakenAnswers(events)]).toEqual([
      [0, 'dropped'],
      [1, 'dropped'],
    ]);
  });

  it('are not those given before a remedy, which were true in their time', () => {
    const events = [gave('silent'), ...DONE, gave('heard')];
    expect(overtakenAnswers(events).size).toBe(0);
  });

  it('are not those given before a remedy even where a contradiction after it is settled', () => {
    const events = [gave('silent'), ...DONE, gave('silent'), gave('heard')];
    expect([...overtakenAnswers([...events, { kind: 'settle', result: 'heard' }])]).toEqual([[3, 'dropped']]);
  });
});
