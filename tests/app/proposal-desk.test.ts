import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { branchLines, moveWords, partTitle } from '../../app/editor/proposal/part-lines.ts';
import { rightWords, savingWords, shapeWords, tenths } from '../../app/editor/proposal/summary-words.ts';
import { openProposing } from '../../app/editor/proposal/proposing.ts';
import { ProposalDesk } from '../../app/editor/proposal/proposal-desk.svelte.ts';
import type { StartProposer } from '../../app/editor/proposal/proposer-thread.ts';
import type { FromProposer, ProposalQuestion } from '../../app/editor/proposal/protocol.ts';
import { compileFaultModel, NO_HISTORY } from '../../trees/belief/index.ts';
import { applyChanges, liveTree, type DraftDocument } from '../../trees/edit/index.ts';
import { evaluate } from '../../trees/plan/index.ts';
import { mustHave } from '../document/parts.ts';
import { smallDocument, smallTree } from '../support/trees.ts';

const LIBRARY = `${import.meta.dirname}/../../trees/library`;
const TEXT = readFileSync(`${LIBRARY}/kw1-panel.tree.json`, 'utf8');
const QUESTION: ProposalQuestion = {
  text: TEXT,
  figures: { history: NO_HISTORY, rate: 40 },
  symptom: 'dark-screen',
  goal: 'isolate',
  method: 'fast',
  within: 60_000,
};

describe('a proposal', () => {
  it('is taken whole at first, part by part as chosen, each with its own minutes and changes', () => {
    const desk = new ProposalDesk(inThisThread());
    desk.search(QUESTION);
    const proposed = mustHave(desk.state.kind === 'proposed' ? desk.state.proposed : null);
    expect(desk.taken.length).toBe(proposed.parts.length);
    expect(desk.made?.cost.minutes).toBeCloseTo(proposed.after.minutes, 9);
    expect(minutesWith(mustHave(desk.made).changes)).toBeCloseTo(proposed.after.minutes, 9);

    const needing = mustHave(proposed.parts.find(({ needs }) => needs.length > 0));
    desk.leave(mustHave(needing.needs[0]));
    expect(desk.taken.includes(needing.id)).toBe(false);
    const made = mustHave(desk.made);
    expect(made.cost.minutes).toBeCloseTo(minutesWith(made.changes), 9);

    desk.take(needing.id);
    for (const id of needing.needs) expect(desk.taken).toContain(id);
    for (const part of proposed.parts) desk.leave(part.id);
    expect(desk.made?.changes).toEqual([]);
  }, 120_000);

  it('names its parts by step, test and where the branches lead', () => {
    const { answer } = proposal();
    const { tree } = liveTree(JSON.parse(TEXT) as DraftDocument);
    const naming = { tree, symptom: QUESTION.symptom, newSteps: new Map(answer.newSteps) };
    for (const part of answer.parts) {
      expect(partTitle(naming, part)).toMatch(/^(?:Step \d+, |Begin with )/);
      expect(branchLines(naming, part).length).toBe(part.branches.length);
      for (const line of branchLines(naming, part)) expect(line).not.toContain('which is not there');
    }
    expect(moveWords(tree, mustHave(answer.moves[0]))).toMatch(/(?:times a unit|at place).*min$/);
    for (const move of answer.moves) {
      const pairs = moveWords(tree, move)?.matchAll(/([\d.]+) → ([\d.]+)/g) ?? [];
      for (const [, was, is] of pairs) expect(was).not.toBe(is);
    }
    const same = { kind: 'test', id: 'rail-5v', saves: 0, made: [0.161, 0.159], place: [2, 2] } as const;
    expect(moveWords(tree, same)).toBeNull();
  }, 120_000);

  it('says first how many steps the path has before and after, and which tests it begins with', () => {
    const { answer } = proposal();
    const { tree } = liveTree(JSON.parse(TEXT) as DraftDocument);
    const path = mustHave(tree.symptoms[QUESTION.symptom]);
    const { before, after } = answer.shape;
    expect(before.steps).toBe(Object.keys(path.steps).length);
    expect(after.steps).toBe(before.steps + answer.newSteps.length - stepsGone(path.steps));
    expect(before.tests[0]).toBe(path.steps[path.first ?? '']?.test);
    const first = mustHave(tree.tests[mustHave(after.tests[0])]).title;
    expect(shapeWords(tree, before, after)).toMatch(
      new RegExp(`begins with (?:the same tests: )?“${first}”`),
    );
  }, 120_000);

  it('says minutes so that their difference is the one it says, and the units mended more or fewer', () => {
    expect([tenths(45.73), tenths(45.5), savingWords(45.73, 45.5)]).toEqual([
      '45.7 min',
      '45.5 min',
      '0.2 min less',
    ]);
    fc.assert(
      fc.property(
        fc.float({ min: 0, max: 500, noNaN: true }),
        fc.float({ min: -9, max: 9, noNaN: true }),
        (one, more) => {
          const other = Math.max(0, one + more);
          const shown = Number.parseFloat(tenths(one)) - Number.parseFloat(tenths(other));
          const said = Number.parseFloat(/^[\d.]+/.exec(savingWords(one, other))?.[0] ?? '0');
          expect(Math.abs(shown)).toBeCloseTo(said, 6);
        },
      ),
    );
    expect(rightWords(0.97, 0.969, 'fix')).toBe('0.1 in 100 fewer mended');
    expect(rightWords(0.97, 0.9701, 'fix')).toBe('as many mended');
    expect(rightWords(0.9, 0.95, 'isolate')).toBe('5 in 100 more at the right finding');
  });

  it('names the test once of a branch that leads to another step for the same test', () => {
    const tree = smallTree();
    const naming = { tree, symptom: 'dark-screen', newSteps: new Map([['supply-2', 'rail-in']]) };
    const branch = { result: 'clear', before: 'supply', after: 'supply-2' };
    const part = { id: 'step:short', step: 'short', needs: [], first: null, test: null, branches: [branch] };
    expect(branchLines(naming, part)).toEqual([
      'Clear: to a new step that makes the test of step 2, 5 V at the converter, and goes on otherwise',
    ]);
  });

  it('of a tree with errors is refused in words', () => {
    const document = smallDocument();
    delete document.findings['panel-dead'];
    const desk = new ProposalDesk(inThisThread());
    desk.search({ ...QUESTION, text: JSON.stringify(document) });
    expect(desk.state).toMatchObject({ kind: 'failed', message: expect.stringContaining('errors') });
  });
});

describe('a search for a better order', () => {
  it('is ended with its thread when it is given up, and answers no more', () => {
    const thread = { stopped: 0, hear: (() => undefined) as (answer: FromProposer) => void };
    const desk = new ProposalDesk((heard) => {
      thread.hear = heard;
      return { send: () => undefined, stop: () => (thread.stopped += 1) };
    });
    desk.search(QUESTION);
    expect(desk.state.kind).toBe('searching');
    desk.stop();
    expect([desk.state.kind, thread.stopped]).toEqual(['idle', 1]);
  });

  it('says why where its thread cannot be had', () => {
    const desk = new ProposalDesk(() => {
      throw new Error('no threads here');
    });
    desk.search(QUESTION);
    expect(desk.state).toEqual({ kind: 'failed', message: 'no threads here' });
  });
});

function inThisThread(): StartProposer {
  const proposing = openProposing(() => 0);
  return (heard) => ({
    send: (message) => heard(structuredClone(proposing(structuredClone(message)))),
    stop: () => undefined,
  });
}

/** What is proposed for the shipped tree, and the thread that it is asked of; looked for once, as that takes long. */
function proposal() {
  if (looked === null) {
    const proposing = openProposing(() => 0);
    const answer = proposing({ kind: 'propose', question: QUESTION });
    if (answer.kind !== 'proposed') throw new Error('Nothing is proposed for the shipped tree any more.');
    looked = { proposing, answer };
  }
  return looked;
}

let looked: {
  readonly proposing: ReturnType<typeof openProposing>;
  readonly answer: Extract<FromProposer, { kind: 'proposed' }>;
} | null = null;

/** How many of a path’s steps the whole proposal has no more. */
function stepsGone(steps: Readonly<Record<string, unknown>>): number {
  const { proposing, answer } = proposal();
  const taken = proposing({ kind: 'take', number: 1, taken: answer.parts.map(({ id }) => id) });
  if (taken.kind !== 'taken' || taken.made === null) throw new Error('The whole proposal cannot be taken.');
  const applied = applyChanges(JSON.parse(TEXT) as DraftDocument, taken.made.changes);
  if (!applied.ok) throw new Error(applied.message);
  const now = liveTree(applied.document).tree.symptoms[QUESTION.symptom]?.steps ?? {};
  expect(taken.made.shape.steps).toBe(Object.keys(now).length);
  return Object.keys(steps).filter((id) => !Object.hasOwn(now, id)).length;
}

/** Minutes of the document with changes made, by its own fault model: what is shown of it once they are. */
function minutesWith(changes: Parameters<typeof applyChanges>[1]): number {
  const document = JSON.parse(TEXT) as DraftDocument;
  const applied = applyChanges(document, changes);
  if (!applied.ok) throw new Error(applied.message);
  const { tree } = liveTree(applied.document);
  const model = compileFaultModel(tree, NO_HISTORY);
  const { symptom, goal } = QUESTION;
  return evaluate({ model, tree, symptom, goal, rate: 40 }).expectedMinutes;
}
