import { describe, expect, it } from 'vitest';
import { askedAt, questionAt } from '../../app/bench/planner/planner-question.ts';
import { advance, compileChart, standing, startWalk, type JobEvent } from '../../trees/chart/index.ts';
import { dunlinTree } from '../support/dunlin-tree.ts';
import { dunlinQuestion } from './planner-questions.ts';
import { beliefOf, compileFaultModel, evidenceOf, NO_HISTORY } from '../../trees/belief/index.ts';
import { smallTree } from '../support/trees.ts';
import type { Tree } from '../../trees/document/index.ts';

const SKIP: JobEvent = { kind: 'skip', test: 'row-look', reason: 'No loupe' };
const OPEN: JobEvent = { kind: 'change', axis: 'shell', to: 'open' };
const CLOSE: JobEvent = { kind: 'change', axis: 'shell', to: 'closed' };
const SHORT: JobEvent = {
  kind: 'answer',
  test: 'supply-resistance',
  result: 'short',
  reading: { value: 1, typed: '1', accuracy: { percent: 1, constant: 0.3 } },
};

function after(tree: Tree, symptom: string, ...events: readonly JobEvent[]) {
  let walk = startWalk(compileChart(tree), symptom);
  for (const event of events) {
    const next = advance(walk, event);
    if (!next.ok) throw new Error(next.refusal.message);
    walk = next.walk;
  }
  return standing(walk);
}

const dunlin = (...events: readonly JobEvent[]) => askedAt(after(dunlinTree(), 'faint', ...events));

describe('what the planner is asked about', () => {
  it('is the test of the path, also on the way to it', () => {
    expect(dunlin()).toEqual({ next: { kind: 'test', id: 'row-look' } });
    expect(dunlin(OPEN)).toEqual({ next: { kind: 'test', id: 'row-look' } });
  });

  it('is an interlock’s test where that comes first', () => {
    const at = after(smallTree(), 'no-sound', OPEN);
    expect(at.act).toMatchObject({ kind: 'test', purpose: { kind: 'interlock' } });
    expect(askedAt(at)).toEqual({ next: { kind: 'test', id: 'supply-resistance' } });
  });

  it('is a finding’s remedy before it is taken in hand, and nothing while it is in hand or being proved', () => {
    const found: readonly JobEvent[] = [OPEN, { kind: 'answer', test: 'row-look', result: 'r2' }];
    const started: readonly JobEvent[] = [...found, { kind: 'start-remedy', finding: 'ribbon-bridge' }];
    const done: readonly JobEvent[] = [...started, { kind: 'remedy-done' }];
    expect(dunlin(...found)).toEqual({ next: { kind: 'remedy', id: 'ribbon-bridge' } });
    expect(dunlin(...started)).toBeNull();
    expect(after(dunlinTree(), 'faint', ...done).act).toMatchObject({
      kind: 'change',
      wanted: { kind: 'test' },
    });
    expect(dunlin(...done)).toBeNull();
    const mended: readonly JobEvent[] = [...done, CLOSE, { kind: 'answer', test: 'sound', result: 'r1' }];
    expect(dunlin(...mended)).toBeNull();
    expect(dunlin(...mended, { kind: 'close', outcome: 'fixed' })).toBeNull();
  });

  it('is what to do at all where the path is left, there is none, or the way is barred', () => {
    expect(dunlin(OPEN, SKIP)).toEqual({ next: null });
    expect(askedAt(after(dunlinTree(), 'stops'))).toEqual({ next: null });
    const barred = after(smallTree(), 'no-sound', OPEN, SHORT);
    expect(barred.act.kind).toBe('barred');
    expect(askedAt(barred)).toEqual({ next: null });
  });

  it('is nothing at a test that the technician has turned to, or on the way to it', () => {
    expect(dunlin({ kind: 'turn-to', test: 'sound' })).toBeNull();
    expect(dunlin(OPEN, { kind: 'turn-to', test: 'sound' })).toBeNull();
  });

  it('is nothing where two answers wait to be settled', () => {
    const twice: readonly JobEvent[] = [
      OPEN,
      { kind: 'answer', test: 'row-look', result: 'r1' },
      { kind: 'turn-to', test: 'row-look' },
      { kind: 'answer', test: 'row-look', result: 'r2' },
    ];
    expect(after(dunlinTree(), 'faint', ...twice).act.kind).toBe('contradiction');
    expect(dunlin(...twice)).toBeNull();
  });
});

describe('the question to the planner', () => {
  const { revisionId, text, history, job, bench, next } = dunlinQuestion();
  const model = compileFaultModel(dunlinTree(), NO_HISTORY);
  const standing = after(dunlinTree(), 'faint');
  const belief = beliefOf(model, 'faint', evidenceOf(dunlinTree(), job));
  const walked = { shelved: { revisionId, text }, history, standing, belief };

  it('has where the job stands, the history and the hourly rate', () => {
    expect(questionAt(walked, 40)).toEqual({ revisionId, text, history, job, bench, rate: 40, next });
  });

  it('is none while the job is being read, and where the answers fit no finding', () => {
    expect(questionAt({ ...walked, history: null }, null)).toBeNull();
    expect(questionAt({ ...walked, belief: { ...belief, impossible: true } }, null)).toBeNull();
  });
});
