import { describe, expect, it } from 'vitest';
import { openAnswerer } from '../../app/bench/planner/answerer.ts';
import { Planner, type PlannerAnswer } from '../../app/bench/planner/planner.svelte.ts';
import type { FromPlanner, ToPlanner } from '../../app/bench/planner/protocol.ts';
import { dunlinQuestion } from './planner-questions.ts';

/** A thread that answers when it is told to: the planner's own answerer, one question after another. */
function threads() {
  const inbox: ToPlanner[] = [];
  const answerer = openAnswerer(() => 0);
  let heard: (answer: FromPlanner) => void = () => undefined;
  let failed: (reason: string) => void = () => undefined;
  let started = 0;
  let stopped = 0;
  const planner = new Planner((onHeard, onFailed) => {
    [heard, failed] = [onHeard, onFailed];
    started += 1;
    return { send: (message) => void inbox.push(message), stop: () => (stopped += 1) };
  });
  return {
    planner,
    asked: () => inbox.filter(({ kind }) => kind === 'ask').length,
    answer: () => {
      for (const message of inbox.splice(0)) {
        const answer = answerer(message);
        if (answer !== null) heard(answer);
      }
    },
    fail: (reason: string) => failed(reason),
    counts: () => ({ started, stopped }),
  };
}

/** Asks and gives what comes back: an answer each time the planner calls. */
function asking(planner: Planner, question = dunlinQuestion()) {
  const answers: (PlannerAnswer | null)[] = [];
  const withdraw = planner.ask(question, (answer) => answers.push(answer));
  return { answers, withdraw };
}

describe('the planner of a window', () => {
  it('starts its thread at the first question, once', () => {
    const { planner, answer, counts } = threads();
    expect(counts().started).toBe(0);
    const first = asking(planner);
    answer();
    const second = asking(planner);
    answer();
    expect(counts().started).toBe(1);
    expect([first.answers.length, second.answers.length]).toEqual([1, 1]);
    expect(first.answers[0]?.advice.best).toMatchObject({ kind: 'test', id: 'tap' });
  });

  it('hands its thread one question at a time', () => {
    const { planner, asked, answer } = threads();
    const [one, other] = [asking(planner), asking(planner)];
    expect(asked()).toBe(1);
    answer();
    expect([one.answers.length, other.answers.length]).toEqual([1, 0]);
    answer();
    expect(other.answers).toHaveLength(1);
  });

  it('drops a waiting question that is withdrawn, and answers the newest', () => {
    const { planner, asked, answer } = threads();
    asking(planner);
    const stale = asking(planner);
    stale.withdraw();
    const newest = asking(planner);
    answer();
    answer();
    expect(asked()).toBe(0);
    expect(stale.answers).toEqual([]);
    expect(newest.answers).toHaveLength(1);
  });

  it('tells nobody the answer to a question that was withdrawn while it was worked on', () => {
    const { planner, answer } = threads();
    const stale = asking(planner);
    stale.withdraw();
    answer();
    expect(stale.answers).toEqual([]);
  });

  it('says once that its thread is gone, and answers nothing more', () => {
    const { planner, fail, answer, counts } = threads();
    const asked = asking(planner);
    fail('its program could not be loaded');
    expect(planner.trouble).toBe(
      'The planner is not available: its program could not be loaded. The walk goes on without it.',
    );
    expect(planner.available).toBe(false);
    expect(counts()).toEqual({ started: 1, stopped: 1 });
    planner.trouble = '';
    const later = asking(planner);
    answer();
    expect([...asked.answers, ...later.answers]).toEqual([]);
    expect(planner.trouble).toBe('');
    expect(counts().started).toBe(1);
  });

  it('says once that it cannot answer, and goes on with the next question', () => {
    const { planner, answer } = threads();
    const broken = asking(planner, dunlinQuestion({ text: '{', revisionId: 'broken' }));
    answer();
    expect(broken.answers).toEqual([null]);
    expect(planner.trouble).toContain('could not answer');
    planner.trouble = '';
    asking(planner, dunlinQuestion({ text: '{', revisionId: 'broken' }));
    const sound = asking(planner);
    answer();
    answer();
    expect(planner.trouble).toBe('');
    expect(sound.answers[0]?.advice.best?.id).toBe('tap');
  });

  it('is not available where a thread cannot be started at all', () => {
    const planner = new Planner(() => {
      throw new Error('no threads here');
    });
    asking(planner);
    expect(planner.available).toBe(false);
    expect(planner.trouble).toContain('no threads here');
  });

  it('ends its thread when it is stopped', () => {
    const { planner, answer, counts } = threads();
    const asked = asking(planner);
    planner.stop();
    answer();
    expect(counts()).toEqual({ started: 1, stopped: 1 });
    expect(asked.answers).toEqual([]);
    expect(planner.trouble).toBe('');
  });
});
