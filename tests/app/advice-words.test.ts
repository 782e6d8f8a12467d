import { describe, expect, it } from 'vitest';
import {
  besideWords,
  plannedTitle,
  savesWords,
  totalWords,
  whyWords,
} from '../../app/bench/planner/advice-words.ts';
import type { Advice, Plan, PlannedAct, Reasoned } from '../../trees/plan/index.ts';
import { dunlinTree } from '../support/dunlin-tree.ts';

const tree = dunlinTree();

function testAct(
  id: string,
  minutes: number,
  expectedTotal: number,
  why: Partial<Reasoned['why']>,
): Reasoned {
  return {
    kind: 'test',
    id,
    minutes,
    expectedTotal,
    why: { kind: 'test', shares: [0.62, 0.38], tells: null, settles: 0, ...why } as Reasoned['why'],
  };
}

const TOLD = [
  { finding: 'clock-missing', probability: 0.34 },
  { finding: 'ribbon-bridge', probability: 0.22 },
] as const;
const SOUND = testAct('sound', 3, 28, { tells: TOLD });
const ROW = testAct('row-look', 6, 31, { settles: 0.03 });
const REMEDY: Reasoned = {
  kind: 'remedy',
  id: 'jack-worn',
  minutes: 12,
  expectedTotal: 22,
  why: { kind: 'remedy', probability: 0.71, mends: 0.67 },
};
const PASS_ON: Reasoned = {
  kind: 'pass-on',
  id: 'pass-on',
  minutes: 60,
  expectedTotal: 60,
  why: { kind: 'pass-on', likeliest: { finding: 'unlisted', probability: 0.64 } },
};

function advice(best: Reasoned, byTree: Reasoned | null, others: readonly PlannedAct[] = []): Advice {
  const saves = byTree === null ? 0 : byTree.expectedTotal - best.expectedTotal;
  const actions = [best, ...others];
  const plan: Plan = { actions, expectedTotal: best.expectedTotal, lowerBound: 0, gap: 0, method: 'fast' };
  return { plan, best, byTree, saves, worthSaying: saves >= 1 };
}

/** Plain spaces, so that the sentences below read as they are shown. */
function plain(words: string): string {
  return words.replace(/\s/g, ' ');
}

function why(said: Advice, rate: number | null = null): string {
  return plain(whyWords(tree, said, rate));
}

describe('why the planner would make a test', () => {
  it('is what it tells apart, its results’ shares and minutes, and what the tree’s next test would do', () => {
    expect(why(advice(SOUND, ROW))).toBe(
      'It tells “Clock missing” (34 %) from “Ribbon bridge” (22 %) in 3 min, and its results are expected 62/38; the tree’s “Row look” takes 6 min with its changeovers and is expected to settle 3 % of units.',
    );
  });

  it('leaves the tree out where it has nothing to say', () => {
    expect(why(advice(SOUND, null))).toBe(
      'It tells “Clock missing” (34 %) from “Ribbon bridge” (22 %) in 3 min, and its results are expected 62/38.',
    );
  });

  it('names no finding that is next to nothing, and no more than three shares', () => {
    const rare = [TOLD[0], { finding: 'jack-worn', probability: 0.001 }] as const;
    const shares = [0.4, 0.3, 0.2, 0.1];
    expect(why(advice(testAct('sound', 4.5, 28, { tells: rare, shares }), null))).toBe(
      'It takes 4.5 min with its changeovers, and its results are expected 40/30/20/….',
    );
  });

  it('says of a result that is all but sure that it is not sure', () => {
    expect(why(advice(testAct('sound', 3, 28, { shares: [0.998, 0.002] }), null))).toContain('>99/<1');
  });

  it('is that others need it where it has but one result', () => {
    expect(why(advice(testAct('sound', 3, 28, { shares: [1] }), null))).toBe(
      'It tells nothing new, but what follows needs it, and it takes 3 min.',
    );
  });
});

describe('why the planner would try a remedy', () => {
  it('is how likely it is, its minutes, how often it mends, and what testing on comes to', () => {
    expect(why(advice(REMEDY, null, [SOUND]))).toBe(
      'At 71 % likely, trying it now (12 min, proof included) is expected to mend 67 % of units and to come to 22 min in all, testing on to 28 min.',
    );
  });

  it('counts the parts only where the shop has an hourly rate', () => {
    expect(why(advice(REMEDY, null), 40)).toBe(
      'At 71 % likely, trying it now (12 min, parts and proof included) is expected to mend 67 % of units.',
    );
  });

  it('does not set two figures against each other that read the same', () => {
    const close = { ...SOUND, expectedTotal: 22.3 };
    expect(why(advice(REMEDY, null, [close]))).toContain(
      'to come to 22 min in all, no more than testing on.',
    );
  });

  it('is set against the tree’s remedy where that is next', () => {
    const other: Reasoned = { ...REMEDY, id: 'speaker-open', minutes: 20, expectedTotal: 40 };
    expect(why(advice(REMEDY, other))).toContain(
      '; the tree’s remedy takes 20 min, proof included, and is expected to mend 67 % of units.',
    );
  });
});

describe('why the planner would pass the unit on', () => {
  it('is what leads, what passing on costs, and what the best of the rest comes to', () => {
    expect(why(advice(PASS_ON, null, [{ ...REMEDY, expectedTotal: 66 }]))).toBe(
      'No test or remedy is worth its minutes any more: something not in this tree (64 %) leads, passing on comes to an expected 60 min, and the best of the rest, the remedy for “Jack worn”, to 66 min.',
    );
    expect(why(advice(PASS_ON, null))).toContain(', and nothing else is left to do.');
  });
});

describe('what the planner would do', () => {
  it('has the title of the act', () => {
    expect([SOUND, REMEDY, PASS_ON].map((act) => plannedTitle(tree, act))).toEqual([
      'Sound',
      'Remedy for “Jack worn”',
      'Pass the unit on',
    ]);
  });

  it('says what it saves of what is expected by the tree, and how long it is expected to take', () => {
    expect(savesWords(advice(SOUND, ROW))).toBe('Saves an expected 3 min of 31 min');
    expect(totalWords(SOUND)).toBe('expected 28 min to repair, prove or pass on');
  });

  it('is set against the tree’s next act in one line beside the question, where there is one', () => {
    expect(besideWords(tree, advice(ROW, ROW))).toBe(
      'The planner agrees: expected 31 min to repair, prove or pass on.',
    );
    const close = { ...SOUND, expectedTotal: 30.4 };
    expect(besideWords(tree, advice(close, ROW))).toBe(
      'The planner expects 0.6 min of 31 min less with “Sound” first.',
    );
    expect(besideWords(tree, advice(SOUND, ROW))).toBe(
      'The planner would do otherwise and save an expected 3 min.',
    );
    expect(besideWords(tree, advice(SOUND, null))).toBe('');
  });
});
