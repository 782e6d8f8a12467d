import { setImmediate } from 'node:timers/promises';
import { beforeEach, describe, expect, it, onTestFinished } from 'vitest';
import { rooted } from '../../app/bench/job/rooted.svelte.ts';
import { AdviceDesk } from '../../app/bench/planner/advice-desk.svelte.ts';
import { openAnswerer } from '../../app/bench/planner/answerer.ts';
import { Planner } from '../../app/bench/planner/planner.svelte.ts';
import type { FromPlanner } from '../../app/bench/planner/protocol.ts';
import type { PlannerQuestion } from '../../app/bench/planner/planner-question.ts';
import { Held } from './held.svelte.ts';
import { dunlinQuestion } from './planner-questions.ts';

let waiting: (() => void)[];
let planner: Planner;
let question: Held<PlannerQuestion | null>;
let desk: AdviceDesk;
let stop: () => void;

/** Lets the planner's thread answer all it was asked so far. */
async function answer(): Promise<void> {
  for (const next of waiting.splice(0)) next();
  await followed();
}

async function ask(next: PlannerQuestion | null): Promise<void> {
  question.value = next;
  await followed();
}

/** Effects run in the microtasks after what they follow has changed. */
async function followed(): Promise<void> {
  await setImmediate();
}

beforeEach(async () => {
  waiting = [];
  const answerer = openAnswerer(() => 0);
  planner = new Planner((heard) => ({
    send: (message) => {
      const said: FromPlanner | null = answerer(message);
      if (said !== null) waiting.push(() => heard(said));
    },
    stop: () => undefined,
  }));
  question = new Held<PlannerQuestion | null>(dunlinQuestion());
  ({ value: desk, stop } = rooted(() => new AdviceDesk(planner, () => question.value)));
  onTestFinished(() => stop());
  await followed();
});

describe('the advice to a pane', () => {
  it('is not there before the planner has answered, and then stands for the question', async () => {
    expect([desk.pending, desk.advice]).toEqual([true, null]);
    await answer();
    expect(desk.pending).toBe(false);
    expect(desk.advice?.best?.id).toBe('tap');
    expect(desk.instead).toEqual(desk.advice?.best);
    expect(desk.proposal).toBeNull();
  });

  it('is gone at once where the job stands elsewhere, and a late answer to what is past is not shown', async () => {
    await ask(dunlinQuestion({ next: null }));
    await answer();
    expect([desk.pending, desk.advice]).toEqual([true, null]);
    await answer();
    expect(desk.proposal?.id).toBe('tap');
    expect(desk.instead).toBeNull();
    await ask(dunlinQuestion());
    expect([desk.pending, desk.advice, desk.proposal]).toEqual([true, null, null]);
  });

  it('asks nothing where there is nothing to ask, and shows no advice there', async () => {
    await answer();
    await ask(null);
    expect([desk.pending, desk.advice, desk.instead, desk.proposal]).toEqual([false, null, null, null]);
    expect(waiting).toEqual([]);
  });

  it('waits no longer where the planner failed at the question', async () => {
    await ask(dunlinQuestion({ text: '{', revisionId: 'broken' }));
    await answer();
    await answer();
    expect([desk.pending, desk.advice]).toEqual([false, null]);
  });

  it('says nothing where planner and tree agree', async () => {
    await ask(dunlinQuestion({ next: { kind: 'test', id: 'tap' } }));
    await answer();
    await answer();
    expect(desk.advice?.saves).toBe(0);
    expect(desk.instead).toBeNull();
  });

  it('withdraws its question when the pane goes away', async () => {
    stop();
    await answer();
    expect(desk.advice).toBeNull();
  });
});
