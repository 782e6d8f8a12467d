import { describe, expect, it } from 'vitest';
import { compileChart, replay, standing, type JobEvent } from '../../trees/chart/index.ts';
import { factOf, type ShownFinding } from '../../trees/review/index.ts';
import { SPEAKER_MENDED } from '../support/temp-shop.ts';
import { smallDocument, smallTree, treeOf } from '../support/trees.ts';

const tree = smallTree();
const MINUTE = 60_000;
const OPENED = Date.UTC(2026, 0, 5, 9);
const SHOWN: readonly ShownFinding[] = [
  ['unlisted', 60],
  ['speaker-open', 30],
];

/** The volume wheel is mended, and the unit is as silent as before. */
const VOLUME_FIRST: readonly JobEvent[] = [
  ...SPEAKER_MENDED.slice(0, 4),
  { kind: 'start-remedy', finding: 'volume-down' },
  ...SPEAKER_MENDED.slice(5, 9),
  { kind: 'answer', test: 'tone', result: 'silent' },
];

/** The fact of a job whose events come so many minutes after one another. */
function fact(
  events: readonly JobEvent[],
  gaps: readonly number[] = [],
  shown: readonly ShownFinding[] = [],
) {
  const walked = replay(compileChart(tree), 'no-sound', events);
  if (!walked.ok) throw new Error(walked.refusal.message);
  const after = standing(walked.walk).job;
  const { outcome } = after;
  if (outcome === undefined) throw new Error('the job is open');
  let at = OPENED;
  const timed = events.map((event, index) => {
    at += (gaps[index] ?? 1) * MINUTE;
    return { at, technicianId: index === events.length - 1 ? 'closer' : 'worker', event };
  });
  const job = { place: 5, openedAt: OPENED, board: 'A1', tree, events: timed, shown, backAt: null };
  return factOf({ ...job, after: { ...after, outcome } }, tree);
}

describe('the fact of a job', () => {
  it('has its finding, its outcome, who closed it and when', () => {
    expect(fact(SPEAKER_MENDED)).toMatchObject({
      closedAt: OPENED + 11 * MINUTE,
      tree: 'small',
      symptom: 'no-sound',
      board: 'A1',
      technician: 'closer',
      outcome: 'fixed',
      finding: 'speaker-open',
      failed: 0,
      tests: 4,
      parts: tree.findings['speaker-open']?.remedy.parts.reduce((sum, { price }) => sum + price, 0),
    });
  });

  it('has the time at the bench up to the remedy, to the last act before the closing and in all', () => {
    expect(fact(SPEAKER_MENDED)).toMatchObject({
      toFinding: 5 * MINUTE,
      toProof: 10 * MINUTE,
      atBench: 11 * MINUTE,
    });
  });

  it('counts a gap of more than an hour as an hour, and one before the last act as none', () => {
    expect(fact(SPEAKER_MENDED, [61, 60, -30]).atBench).toBe((60 + 60 + 0 + 8) * MINUTE);
  });

  it('counts time by all that was done, and acts only where they were not taken back', () => {
    const [first, ...rest] = SPEAKER_MENDED;
    if (first === undefined) throw new Error('no event');
    const again = fact([first, { kind: 'take-back' }, first, ...rest]);
    expect(again).toMatchObject({ tests: 4, toFinding: 7 * MINUTE, atBench: 13 * MINUTE });
  });

  it('counts the acts that were the planner’s advice', () => {
    const advised = SPEAKER_MENDED.map((event) =>
      event.kind === 'start-remedy' ? ({ ...event, advised: true } as const) : event,
    );
    const turned: readonly JobEvent[] = [
      { kind: 'turn-to', test: 'tone', advised: true },
      { kind: 'take-back' },
    ];
    expect(fact(SPEAKER_MENDED).advised).toBe(0);
    expect(fact([...turned, ...advised]).advised).toBe(1);
  });

  it('has the results that led to the finding in the order of the tests’ ids, by the tree’s bands as they are now', () => {
    expect(fact(SPEAKER_MENDED).answers).toEqual([
      { test: 'supply-resistance', result: 'clear' },
      { test: 'tone', result: 'silent' },
    ]);
    const moved = smallDocument();
    Object.assign(moved.tests['supply-resistance'] ?? {}, {
      results: {
        clear: { title: 'Clear', band: { from: 1e5 } },
        short: { title: 'Short', band: { to: 1e5 } },
      },
    });
    const walked = replay(compileChart(tree), 'no-sound', SPEAKER_MENDED);
    if (!walked.ok) throw new Error(walked.refusal.message);
    const after = { ...standing(walked.walk).job, outcome: 'fixed' as const };
    const job = { place: 5, openedAt: OPENED, board: '', tree, events: [], after, shown: [], backAt: null };
    expect(factOf(job, treeOf(moved)).answers[0]).toEqual({ test: 'supply-resistance', result: 'short' });
  });

  it('has the finding whose remedy was proved first, whether it mended the unit or not', () => {
    expect(fact(SPEAKER_MENDED).tried).toBe('speaker-open');
    expect(fact([...VOLUME_FIRST, ...SPEAKER_MENDED.slice(4)])).toMatchObject({
      tried: 'volume-down',
      finding: 'speaker-open',
      failed: 1,
    });
    const stopped: JobEvent = { kind: 'close', outcome: 'declined' };
    expect(fact([...VOLUME_FIRST, stopped])).toMatchObject({ tried: 'volume-down', finding: null });
    expect(fact([...VOLUME_FIRST.slice(0, 6), stopped]).tried).toBeNull();
  });

  it('has the percentages that were shown, and which of them was the finding’s', () => {
    expect(fact(SPEAKER_MENDED, [], SHOWN)).toMatchObject({ shown: [60, 30], confirmed: 1 });
    expect(fact(SPEAKER_MENDED, [], SHOWN.slice(0, 1))).toMatchObject({ shown: [60], confirmed: null });
  });

  it('of a job that was not fixed has neither finding nor results, though it has its time and tests', () => {
    expect(
      fact([...SPEAKER_MENDED.slice(0, 4), { kind: 'close', outcome: 'declined' }], [], SHOWN),
    ).toMatchObject({
      outcome: 'declined',
      finding: null,
      toFinding: null,
      toProof: null,
      atBench: 5 * MINUTE,
      tests: 2,
      parts: 0,
      answers: [],
      confirmed: null,
    });
  });
});
