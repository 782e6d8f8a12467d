import { describe, expect, it } from 'vitest';
import { failedProof } from '../../app/bench/job/failed-proof.ts';
import type { StoredEvent } from '../../main/contract/index.ts';
import { compileChart, replay, standing, type JobEvent } from '../../trees/chart/index.ts';
import { smallTree } from '../support/trees.ts';

const tree = smallTree();
const chart = compileChart(tree);
const SHORT: JobEvent = supply(3, 'short');
const UNTIL_PROOF: readonly JobEvent[] = [
  { kind: 'change', axis: 'shell', to: 'open' },
  SHORT,
  { kind: 'start-remedy', finding: 'capacitor-short' },
  { kind: 'remedy-done' },
];

function supply(value: number, result: string): JobEvent {
  const reading = { value, typed: String(value), accuracy: { percent: 1, constant: 0.3 } };
  return { kind: 'answer', test: 'supply-resistance', result, reading };
}

function walked(events: readonly JobEvent[]) {
  const replayed = replay(chart, 'dark-screen', events);
  if (!replayed.ok) throw new Error(replayed.refusal.message);
  return standing(replayed.walk);
}

function failed(events: readonly JobEvent[]) {
  const kept = events.map((event, seq): StoredEvent => ({
    id: String(seq),
    seq,
    at: '2026-03-02T09:00:00.000Z',
    technicianId: 't',
    event,
  }));
  return failedProof(tree, walked(events).job, kept);
}

describe('a failed proof', () => {
  it('is told by the test that failed it and the remedy that did not mend', () => {
    expect(failed([...UNTIL_PROOF, SHORT])).toMatchObject({
      remedy: { finding: 'capacitor-short', state: 'not-mended' },
      test: 'supply-resistance',
      result: 'short',
    });
  });

  it('is none while the proof goes on', () => {
    expect(failed([...UNTIL_PROOF, supply(4700, 'clear')])).toBeNull();
  });

  it('is none before a remedy is done', () => {
    expect(failed(UNTIL_PROOF.slice(0, 2))).toBeNull();
  });

  it('is told no longer once something else is taken in hand', () => {
    const next: JobEvent = { kind: 'start-remedy', finding: 'converter-low' };
    expect(failed([...UNTIL_PROOF, SHORT, next])).toBeNull();
  });
});
