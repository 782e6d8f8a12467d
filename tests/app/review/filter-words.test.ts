import { describe, expect, it } from 'vitest';
import { periodWords, withinWords } from '../../../app/review/words/days.ts';
import { filterWords } from '../../../app/review/words/filter-words.ts';
import { NO_NAMES } from '../../../app/review/words/titles.ts';
import { ALL_JOBS, type ReviewFilter } from '../../../trees/review/index.ts';

describe('a period in words', () => {
  it('is called by its name where it is whole months or a whole year', () => {
    expect(periodWords('2026-11-01', '2026-11-30')).toBe('November 2026');
    expect(periodWords('2028-02-01', '2028-02-29')).toBe('February 2028');
    expect(periodWords('2027-12-01', '2028-02-29')).toBe('December 2027 to February 2028');
    expect(periodWords('2026-01-01', '2026-12-31')).toBe('2026');
  });

  it('is told by its days where a month is begun or cut off, or the days are the wrong way round', () => {
    expect(periodWords('2026-11-02', '2026-11-30')).toBe('2 Nov 2026 to 30 Nov 2026');
    expect(periodWords('2027-02-01', '2027-02-27')).toBe('1 Feb 2027 to 27 Feb 2027');
    expect(periodWords('2026-12-01', '2026-11-30')).toBe('1 Dec 2026 to 30 Nov 2026');
    expect(periodWords('2026-11-30', '2026-11-30')).toBe('30 Nov 2026');
    expect(periodWords('2026-11-01', null)).toBe('since 1 Nov 2026');
    expect(periodWords(null, '2026-11-30')).toBe('up to 30 Nov 2026');
    expect(periodWords(null, null)).toBe('all of the record');
  });

  it('stands behind what happened in it', () => {
    expect(withinWords('2026-11-01', '2026-11-30')).toBe('in November 2026');
    expect(withinWords('2026-01-01', '2026-12-31')).toBe('in 2026');
    expect(withinWords('2027-12-01', '2028-02-29')).toBe('from December 2027 to February 2028');
    expect(withinWords('2026-11-30', '2026-11-30')).toBe('on 30 Nov 2026');
    expect(withinWords('2026-11-01', null)).toBe('since 1 Nov 2026');
    expect(withinWords(null, '2026-11-30')).toBe('up to 30 Nov 2026');
  });
});

describe('what the page is narrowed to', () => {
  const names = { ...NO_NAMES, trees: { kw: 'Kittiwake KW-1' }, technicians: { mq: 'Mara Quill' } };
  const jobs = (filter: Partial<ReviewFilter>): string =>
    `What does the shop’s record say of jobs ${filterWords({ ...ALL_JOBS, ...filter }, names)}?`;

  it('is nothing of all jobs, whatever the comeback window', () => {
    expect(filterWords({ ...ALL_JOBS, window: 30 }, names)).toBe('');
  });

  it.each<[Partial<ReviewFilter>, string]>([
    [{ tree: 'kw' }, 'on “Kittiwake KW-1”'],
    [{ board: 'B2' }, 'with board B2'],
    [{ board: '' }, 'with no board noted'],
    [{ technician: 'mq' }, 'closed by Mara Quill'],
    [{ from: '2027-03-01' }, 'closed since 1 Mar 2027'],
    [{ to: '2027-03-03' }, 'closed up to 3 Mar 2027'],
    [{ from: '2026-11-01', to: '2026-11-30' }, 'closed in November 2026'],
    [{ tree: 'kw', board: 'B2' }, 'on “Kittiwake KW-1” with board B2'],
    [{ board: '', technician: 'mq' }, 'with no board noted, closed by Mara Quill'],
    [{ tree: 'kw', from: '2027-03-01' }, 'on “Kittiwake KW-1”, closed since 1 Mar 2027'],
    [{ technician: 'mq', from: '2027-03-03', to: '2027-03-03' }, 'closed by Mara Quill on 3 Mar 2027'],
    [
      { tree: 'kw', board: 'B2', technician: 'mq', from: '2026-11-01', to: '2026-12-03' },
      'on “Kittiwake KW-1” with board B2, closed by Mara Quill from 1 Nov 2026 to 3 Dec 2026',
    ],
  ])('%j reads as a sentence', (filter, words) => {
    expect(jobs(filter)).toBe(`What does the shop’s record say of jobs ${words}?`);
  });
});
