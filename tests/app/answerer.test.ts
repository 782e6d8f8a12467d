import { describe, expect, it } from 'vitest';
import { openAnswerer } from '../../app/bench/planner/answerer.ts';
import { openTelling } from '../../app/bench/planner/telling.ts';
import type { FromPlanner } from '../../app/bench/planner/protocol.ts';
import type { PlannerQuestion } from '../../app/bench/planner/planner-question.ts';
import { compileFaultModel, NO_HISTORY } from '../../trees/belief/index.ts';
import { readAndCheck } from '../../trees/document/index.ts';
import { advise } from '../../trees/plan/index.ts';
import { dunlinDocument } from '../support/dunlin-tree.ts';
import type { TreeDocument } from '../support/trees.ts';
import { dunlinQuestion } from './planner-questions.ts';

/** A thread without a thread: messages are copied as they are between threads. */
function thread(now: () => number = () => 0) {
  const answerer = openAnswerer(now);
  const telling = openTelling();
  let number = 0;
  return (question: PlannerQuestion): FromPlanner | null => {
    number += 1;
    const answers = telling(number, question).map((message) => answerer(structuredClone(message)));
    return structuredClone(answers.at(-1) ?? null);
  };
}

function ownAdvice({ text, history, job, bench, rate, next }: PlannerQuestion) {
  const { tree } = readAndCheck(text);
  if (tree === null) throw new Error('the tree is broken');
  return advise({ model: compileFaultModel(tree, history), job, bench, rate }, next);
}

describe('the planner’s thread', () => {
  it('answers what the planner says, and how many milliseconds it took', () => {
    let clock = 0;
    const asked = dunlinQuestion();
    const answer = thread(() => (clock += 7))(asked);
    expect(answer).toEqual({ kind: 'answer', number: 1, advice: ownAdvice(asked), milliseconds: 7 });
  });

  it('goes by the history and the hourly rate that the question is asked with', () => {
    const ask = thread();
    const seen = { ...NO_HISTORY, findings: { faint: { 'jack-worn': 400 } } };
    const first = dunlinQuestion();
    const later = dunlinQuestion({ history: seen, rate: 30 });
    expect(ownAdvice(later)).not.toEqual(ownAdvice(first));
    expect(ask(first)).toMatchObject({ advice: ownAdvice(first) });
    expect(ask(later)).toMatchObject({ advice: ownAdvice(later) });
    expect(ask(first)).toMatchObject({ advice: ownAdvice(first) });
  });

  it('reads a tree whose ids every object knows by itself', () => {
    const text = JSON.stringify(
      renamed(dunlinDocument(), { 'row-look': 'constructor', 'jack-worn': 'valueof' }),
    );
    const asked = dunlinQuestion({ text, next: { kind: 'test', id: 'constructor' } });
    const answer = thread()(asked);
    expect(answer).toMatchObject({ kind: 'answer', advice: { byTree: { id: 'constructor' } } });
    expect(answer).toMatchObject({ advice: ownAdvice(asked) });
  });

  it('says that it failed at a tree it cannot read, and answers the next question', () => {
    const ask = thread();
    expect(ask(dunlinQuestion({ text: '{', revisionId: 'broken' }))).toMatchObject({
      kind: 'failed',
      number: 1,
      message: expect.stringContaining('broken'),
    });
    expect(ask(dunlinQuestion())).toMatchObject({ kind: 'answer', number: 2 });
  });

  it('says that it failed where the question is about a test that the tree does not have', () => {
    const job = { ...dunlinQuestion().job, symptom: 'no-such-symptom' };
    expect(thread()(dunlinQuestion({ job }))).toMatchObject({ kind: 'failed', number: 1 });
  });
});

describe('what the planner’s thread is told', () => {
  it('is the tree once, a history where it is another, and every question', () => {
    const tell = openTelling();
    const other = { ...NO_HISTORY };
    const kinds = (question: PlannerQuestion, number: number) =>
      tell(number, question).map(({ kind }) => kind);
    expect(kinds(dunlinQuestion(), 1)).toEqual(['tree', 'history', 'ask']);
    expect(kinds(dunlinQuestion(), 2)).toEqual(['ask']);
    expect(kinds(dunlinQuestion({ history: other }), 3)).toEqual(['history', 'ask']);
    expect(kinds(dunlinQuestion({ revisionId: 'revision-2' }), 4)).toEqual(['tree', 'history', 'ask']);
  });
});

function renamed(document: TreeDocument, names: Readonly<Record<string, string>>): unknown {
  const text = Object.entries(names).reduce(
    (so, [from, to]) => so.replaceAll(from, to),
    JSON.stringify(document),
  );
  return JSON.parse(text);
}
