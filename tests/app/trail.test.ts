import { describe, expect, it } from 'vitest';
import { trailOf } from '../../app/bench/job/trail.ts';
import type { StoredEvent } from '../../main/contract/index.ts';
import type { JobEvent } from '../../trees/chart/index.ts';

const stored = (events: readonly JobEvent[]): StoredEvent[] =>
  events.map((event, seq) => ({
    id: String(seq),
    seq,
    at: '2026-03-02T09:00:00.000Z',
    technicianId: 't',
    event,
  }));
const turn = (test: string): JobEvent => ({ kind: 'turn-to', test });
const BACK: JobEvent = { kind: 'take-back' };
const keptOf = (events: readonly JobEvent[]): JobEvent[] =>
  trailOf(stored(events)).kept.map(({ event }) => event);

describe('the trail', () => {
  it('leaves out what was taken back and the taking back', () => {
    expect(keptOf([turn('a'), turn('b'), BACK])).toEqual([turn('a')]);
  });

  it('offers what was taken back, the last taken back first', () => {
    expect(trailOf(stored([turn('a'), turn('b'), BACK, BACK])).again).toEqual([turn('a'), turn('b')]);
  });

  it('offers the rest when the first was done again', () => {
    const trail = trailOf(stored([turn('a'), turn('b'), BACK, BACK, turn('a')]));
    expect(trail.again).toEqual([turn('b')]);
  });

  it('offers nothing once something else was done', () => {
    expect(trailOf(stored([turn('a'), BACK, turn('c')])).again).toEqual([]);
  });

  it('knows an event done again whatever the order of its fields', () => {
    const change: JobEvent = { kind: 'change', axis: 'power', to: 'on' };
    const asRead: JobEvent = { to: 'on', axis: 'power', kind: 'change' };
    expect(trailOf(stored([change, BACK, asRead])).again).toEqual([]);
    expect(trailOf(stored([change, turn('a'), BACK, BACK, asRead])).again).toEqual([turn('a')]);
  });
});
