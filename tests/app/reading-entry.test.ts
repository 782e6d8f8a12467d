import { describe, expect, it } from 'vitest';
import { ReadingEntry, referenceIn } from '../../app/bench/job/reading-entry.svelte.ts';
import { smallTree } from '../support/trees.ts';
import { compileChart, standing, startWalk } from '../../trees/chart/index.ts';
import type { Test } from '../../trees/document/index.ts';

const tree = smallTree();
const METER = {
  id: 'm-1',
  name: 'Bench meter',
  measures: 'ohms',
  percent: 0.1,
  constant: 0,
  retired: false,
} as const;

function test(id: string): Test {
  const found = tree.tests[id];
  if (found === undefined) throw new Error(`no test ${id}`);
  return found;
}

describe('a reading while it is typed', () => {
  it('is read as the meter shows it and finds its band', () => {
    const entry = new ReadingEntry(test('supply-resistance'), undefined, []);
    entry.typed = '4k7';
    expect(entry.reading).toEqual({
      result: 'clear',
      reading: { value: 4700, typed: '4k7', accuracy: { percent: 1, constant: 0.3 } },
    });
  });

  it('records nothing while it cannot be read', () => {
    const entry = new ReadingEntry(test('supply-resistance'), undefined, []);
    entry.typed = '4V7';
    expect(entry.reading).toBeNull();
    expect(entry.parsed?.ok).toBe(false);
  });

  it('is too close to call near a limit until a better instrument is chosen', () => {
    const entry = new ReadingEntry(test('supply-resistance'), undefined, [METER]);
    entry.typed = '50.3';
    expect(entry.tooClose).toBe(true);
    entry.measureWith(METER.id);
    expect(entry.tooClose).toBe(false);
    expect(entry.reading?.reading).toMatchObject({
      instrument: METER.id,
      accuracy: { percent: 0.1, constant: 0 },
    });
  });

  it('offers only instruments in use that measure the test’s quantity', () => {
    const retired = { ...METER, id: 'm-2', retired: true };
    const volts = { ...METER, id: 'm-3', measures: 'dc-volts' as const };
    const entry = new ReadingEntry(test('supply-resistance'), undefined, [METER, retired, volts]);
    expect(entry.instruments.map(({ id }) => id)).toEqual(['m-1']);
  });

  it('needs the earlier reading for ratio bands, and takes it from the standing answers', () => {
    const { job } = standing(startWalk(compileChart(tree), 'dark-screen'));
    expect(referenceIn(job, test('rail-far'))).toBeUndefined();
    const reading = { value: 5, typed: '5', accuracy: { percent: 0, constant: 0 } };
    const later = { ...job, answers: [{ test: 'rail-in', result: 'good', reading, era: 0 }] };
    expect(referenceIn(later, test('rail-far'))).toBe(5);
    const entry = new ReadingEntry(test('rail-far'), 5, []);
    entry.typed = '4.5';
    expect(entry.reading?.result).toBe('drop');
  });
});
