import { describe, expect, it } from 'vitest';
import { sheetOf } from '../../app/bench/sheet/sheet.ts';
import { trailOf } from '../../app/bench/job/trail.ts';
import type { StoredEvent } from '../../main/contract/index.ts';
import { compileChart, replay, standing, type JobEvent } from '../../trees/chart/index.ts';
import { smallTree } from '../support/trees.ts';

const tree = smallTree();
const reading = (value: number, typed: string, instrument?: string) => ({
  value,
  typed,
  accuracy: { percent: 1, constant: 0.3 },
  ...(instrument === undefined ? {} : { instrument }),
});
const METER = {
  id: 'm-1',
  name: 'Bench meter',
  measures: 'ohms',
  percent: 1,
  constant: 0.3,
  retired: false,
} as const;

const EVENTS: readonly JobEvent[] = [
  { kind: 'change', axis: 'shell', to: 'open' },
  { kind: 'answer', test: 'supply-resistance', result: 'clear', reading: reading(4700, '4k7', METER.id) },
  { kind: 'change', axis: 'power', to: 'on' },
  { kind: 'skip', test: 'rail-in', reason: 'No probe reaches it', as: 'low' },
  { kind: 'start-remedy', finding: 'converter-low' },
];

function sheet(events: readonly JobEvent[]) {
  const replayed = replay(compileChart(tree), 'dark-screen', events);
  if (!replayed.ok) throw new Error(replayed.refusal.message);
  const stored = events.map((event, seq): StoredEvent => ({
    id: String(seq),
    seq,
    at: '2026-03-02T09:00:00.000Z',
    technicianId: 't',
    event,
  }));
  return sheetOf(tree, trailOf(stored).kept, standing(replayed.walk).job, [METER]);
}

describe('the job sheet', () => {
  it('has each test with its reading, band and instrument, and no changeover', () => {
    expect(sheet(EVENTS).tests).toMatchObject([
      { test: 'Supply to ground', result: 'Clear', reading: '4.7 kΩ', typed: '4k7', band: 'from 50 Ω' },
    ]);
    expect(sheet(EVENTS).tests[0]?.instrument).toBe('Bench meter, ±(1 % + 0.3 Ω)');
  });

  it('says which tests and remedies were the planner’s advice', () => {
    const [open, , power] = EVENTS;
    const answer = { kind: 'answer', test: 'supply-resistance', result: 'clear' } as const;
    const measured: JobEvent = { ...answer, reading: reading(4700, '4k7', METER.id) };
    const advised = sheet([
      { kind: 'turn-to', test: 'supply-resistance', advised: true },
      ...(open === undefined ? [] : [open]),
      measured,
      ...(power === undefined ? [] : [power]),
      { kind: 'start-remedy', finding: 'converter-low', advised: true },
    ]);
    expect(advised.tests.map((test) => test.advised)).toEqual([true]);
    expect(advised.remedies.map((remedy) => remedy.advised)).toEqual([true]);
    expect(sheet(EVENTS).tests.map((test) => test.advised)).toEqual([false]);
    expect(sheet(EVENTS).remedies.map((remedy) => remedy.advised)).toEqual([false]);
  });

  it('has skipped tests with their reason', () => {
    expect(sheet(EVENTS).skips).toEqual([
      { test: '5 V at the converter', reason: 'No probe reaches it', as: 'Low' },
    ]);
  });

  it('has a test that was left out with its reason and no result', () => {
    const leftOut: JobEvent = { kind: 'skip', test: 'rail-in', reason: 'No probe reaches it' };
    expect(sheet([...EVENTS.slice(0, 3), leftOut]).skips).toEqual([
      { test: '5 V at the converter', reason: 'No probe reaches it', as: null },
    ]);
  });

  it('has the remedy in hand with its parts', () => {
    expect(sheet(EVENTS).remedies).toMatchObject([
      { title: 'Converter low', state: 'in-hand', parts: [{ name: 'Part', price: 1.5 }] },
    ]);
  });

  it('leaves out what was taken back', () => {
    expect(sheet([...EVENTS.slice(0, 2), { kind: 'take-back' }]).tests).toEqual([]);
  });

  it('marks a corrected answer, and the one that it was put in place of', () => {
    const corrected: JobEvent = {
      kind: 'correct',
      test: 'supply-resistance',
      result: 'short',
      reading: reading(3, '3'),
    };
    expect(sheet([...EVENTS.slice(0, 2), corrected]).tests).toMatchObject([
      { result: 'Clear', corrected: false, overtaken: 'corrected' },
      { result: 'Short', corrected: true, overtaken: null },
    ]);
  });

  it('has the tree’s cautions', () => {
    expect(sheet(EVENTS).cautions).toEqual(tree.cautions);
  });
});
