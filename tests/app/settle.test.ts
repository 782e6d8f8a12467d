import { describe, expect, it } from 'vitest';
import { moves, settlings } from '../../app/bench/job/settle.ts';
import { beliefOf, chosen, compileFaultModel, NO_EVIDENCE, NO_HISTORY } from '../../trees/belief/index.ts';
import { smallTree, treeOf, smallDocument } from '../support/trees.ts';

const model = compileFaultModel(smallTree(), NO_HISTORY);
const belief = beliefOf(model, 'dark-screen', NO_EVIDENCE);
const settled = settlings(model, 'dark-screen', NO_EVIDENCE, belief, 'supply-resistance');

describe('what a test would settle', () => {
  it('is said for each result in the document’s order, with likelihoods that sum to one', () => {
    expect(settled.map(({ result }) => result)).toEqual(['clear', 'short']);
    expect(settled.reduce((sum, { probability }) => sum + probability, 0)).toBeCloseTo(1, 12);
  });

  it('names the finding that would lead after the result', () => {
    const after = beliefOf(model, 'dark-screen', {
      ...NO_EVIDENCE,
      observations: [chosen('supply-resistance', 'short')],
    });
    expect(settled[1]?.leads.finding).toBe(after.findings[0]?.finding);
    expect(settled[1]?.leads.finding).toBe('capacitor-short');
    expect(settled[1]?.leads.probability).toBeCloseTo(after.findings[0]?.probability ?? 0, 12);
  });

  it('moves no probability where every finding expects every result alike', () => {
    const document = smallDocument();
    document.tests['unheard-of'] = {
      title: 'Nobody knows',
      ask: 'Look.',
      instrument: 'eye',
      minutes: 1,
      results: { yes: { title: 'Yes' }, no: { title: 'No' } },
    };
    const wider = compileFaultModel(treeOf(document), NO_HISTORY);
    const now = beliefOf(wider, 'dark-screen', NO_EVIDENCE);
    expect(moves(wider, 'dark-screen', NO_EVIDENCE, now, 'unheard-of')).toBeCloseTo(0, 12);
    expect(moves(wider, 'dark-screen', NO_EVIDENCE, now, 'rail-in')).toBeGreaterThan(0.05);
  });

  it('takes the place of an answer to the same test instead of counting it twice', () => {
    const evidence = { ...NO_EVIDENCE, observations: [chosen('supply-resistance', 'clear')] };
    const now = beliefOf(model, 'dark-screen', evidence);
    const again = settlings(model, 'dark-screen', evidence, now, 'supply-resistance');
    expect(again[0]?.leads).toEqual(settled[0]?.leads);
  });
});
