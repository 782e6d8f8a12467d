import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { branchLines, moveWords, partTitle } from '../../app/editor/proposal/part-lines.ts';
import { openProposing } from '../../app/editor/proposal/proposing.ts';
import { ProposalDesk } from '../../app/editor/proposal/proposal-desk.svelte.ts';
import type { StartProposer } from '../../app/editor/proposal/proposer-thread.ts';
import type { FromProposer, ProposalQuestion } from '../../app/editor/proposal/protocol.ts';
import { compileFaultModel, NO_HISTORY } from '../../trees/belief/index.ts';
import { applyChanges, liveTree, type DraftDocument } from '../../trees/edit/index.ts';
import { evaluate } from '../../trees/plan/index.ts';
import { mustHave } from '../document/parts.ts';
import { smallDocument } from '../support/trees.ts';

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
    const answer = openProposing(() => 0)({ kind: 'propose', question: QUESTION });
    if (answer.kind !== 'proposed') throw new Error('Nothing is proposed for the shipped tree any more.');
    const { tree } = liveTree(JSON.parse(TEXT) as DraftDocument);
    const naming = { tree, symptom: QUESTION.symptom, newSteps: new Map(answer.newSteps) };
    for (const part of answer.parts) {
      expect(partTitle(naming, part)).toMatch(/^(?:Step \d+, |Begin with )/);
      expect(branchLines(naming, part).length).toBe(part.branches.length);
      for (const line of branchLines(naming, part)) expect(line).not.toContain('which is not there');
    }
    expect(moveWords(tree, mustHave(answer.moves[0]))).toMatch(/times a unit.*min$/);
  }, 120_000);

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
