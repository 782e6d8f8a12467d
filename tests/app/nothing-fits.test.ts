import { describe, expect, it } from 'vitest';
import { nothingFits, type NothingFits } from '../../app/bench/job/nothing-fits.ts';
import { beliefOf, compileFaultModel, evidenceOf, NO_HISTORY } from '../../trees/belief/index.ts';
import { compileChart, replay, standing, type JobEvent } from '../../trees/chart/index.ts';
import { smallDocument, treeOf } from '../support/trees.ts';

/** With no sound nobody expects a short, and something not in the tree is likely enough to lead after one. */
const tree = treeOf({ ...smallDocument(), defaults: { unlisted: 0.3 } });
const chart = compileChart(tree);
const model = compileFaultModel(tree, NO_HISTORY);

const OPEN: JobEvent = { kind: 'change', axis: 'shell', to: 'open' };
const TURN: JobEvent = { kind: 'turn-to', test: 'supply-resistance' };
const SHORT = [OPEN, supply(3, 'short')];

function supply(value: number, result: string): JobEvent {
  const reading = { value, typed: String(value), accuracy: { percent: 1, constant: 0.3 } };
  return { kind: 'answer', test: 'supply-resistance', result, reading };
}

function after(events: readonly JobEvent[]): NothingFits | null {
  const replayed = replay(chart, 'no-sound', events);
  if (!replayed.ok) throw new Error(replayed.refusal.message);
  const stands = standing(replayed.walk);
  const evidence = evidenceOf(tree, stands.job);
  return nothingFits(model, stands, evidence, beliefOf(model, 'no-sound', evidence));
}

describe('where something not in the tree leads', () => {
  it('the answer that fits worst is named with its reading, and is not being asked', () => {
    const misfit = after(SHORT);
    expect(misfit?.worst).toMatchObject({
      test: 'supply-resistance',
      answer: { result: 'short', reading: { typed: '3' } },
      leader: { finding: 'speaker-open' },
    });
    expect(misfit?.worst?.unlisted).toBeCloseTo(misfit?.unlisted ?? -1, 12);
    expect(misfit?.asked).toBe(false);
  });

  it('its test is being asked once it has been turned to, the way to it included', () => {
    expect(after([...SHORT, TURN])?.asked).toBe(true);
    const closed: JobEvent = { kind: 'change', axis: 'shell', to: 'closed' };
    expect(after([...SHORT, closed, TURN])?.asked).toBe(true);
  });

  it('nothing is said while two answers wait to be settled', () => {
    expect(after([...SHORT, TURN, supply(4700, 'clear')])).toBeNull();
  });

  it('nothing is said while something not in the tree is being mended, and it is said again once that is left', () => {
    const start: JobEvent = { kind: 'start-remedy', finding: 'unlisted', what: 'Wire torn' };
    expect(after([...SHORT, start])).toBeNull();
    expect(after([...SHORT, start, { kind: 'give-up-remedy', reason: 'No wire.' }])).not.toBeNull();
  });

  it('nothing is said of a closed job', () => {
    expect(after([...SHORT, { kind: 'close', outcome: 'passed-on' }])).toBeNull();
  });
});

it('where a finding of the tree leads nothing is said', () => {
  expect(after([OPEN, supply(4700, 'clear')])).toBeNull();
});

it('before any answer nothing is said even where the shop has mostly seen something not in the tree', () => {
  const seen = compileFaultModel(tree, { ...NO_HISTORY, findings: { 'no-sound': { unlisted: 50 } } });
  const replayed = replay(chart, 'no-sound', []);
  if (!replayed.ok) throw new Error(replayed.refusal.message);
  const nothing = { observations: [], failed: [] };
  const belief = beliefOf(seen, 'no-sound', nothing);
  expect(belief.findings[0]?.finding).toBe('unlisted');
  expect(nothingFits(seen, standing(replayed.walk), nothing, belief)).toBeNull();
});
