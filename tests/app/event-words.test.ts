import { expect, it } from 'vitest';
import { eventWords } from '../../app/bench/job/event-words.ts';
import type { JobEvent } from '../../trees/chart/index.ts';
import { smallTree } from '../support/trees.ts';

const tree = smallTree();
const CONTRADICTION: readonly JobEvent[] = [
  { kind: 'answer', test: 'tone', result: 'heard' },
  { kind: 'answer', test: 'tone', result: 'silent' },
];

it('says of which test a contradiction was settled, and which result stands', () => {
  expect(eventWords(tree, { kind: 'settle', result: 'silent' }, CONTRADICTION)).toEqual({
    what: 'Tone, contradiction settled',
    came: 'Silent stands',
    reading: '',
  });
});

it('says that neither result stands where both were dropped', () => {
  expect(eventWords(tree, { kind: 'settle', result: null }, CONTRADICTION).came).toBe('Neither stands');
});

it('says which acts were the planner’s advice', () => {
  const turn: JobEvent = { kind: 'turn-to', test: 'tone' };
  expect(eventWords(tree, { ...turn, advised: true }, []).what).toBe(
    'Turned to Tone on the planner’s advice',
  );
  expect(eventWords(tree, turn, []).what).toBe('Turned to Tone');
  const start: JobEvent = { kind: 'start-remedy', finding: 'speaker-open', advised: true };
  expect(eventWords(tree, start, []).what).toBe('Remedy taken in hand on the planner’s advice');
});

it('says of a skip its reason, and the result gone on as or that the test cannot be made here', () => {
  const skip: JobEvent = { kind: 'skip', test: 'tone', reason: 'No speaker' };
  expect(eventWords(tree, skip, [])).toEqual({
    what: 'Tone, skipped: No speaker',
    came: 'cannot be made here',
    reading: '',
  });
  expect(eventWords(tree, { ...skip, as: 'silent' }, []).came).toBe('as Silent');
});
