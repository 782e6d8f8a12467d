import { describe, expect, it } from 'vitest';
import { periodsOn } from '../../../app/review/filter/periods.ts';

describe('the periods that are mostly looked at', () => {
  it('are whole months, over the turn of a year and in a leap February', () => {
    expect(periodsOn('2028-02-10').map(({ id, from, to }) => [id, from, to])).toEqual([
      ['month', '2028-02-01', '2028-02-29'],
      ['last-month', '2028-01-01', '2028-01-31'],
      ['quarter', '2027-12-01', '2028-02-29'],
      ['year', '2028-01-01', '2028-12-31'],
      ['all', null, null],
    ]);
  });

  it('have the month before a January in the year before', () => {
    const last = periodsOn('2027-01-31').find(({ id }) => id === 'last-month');
    expect(last).toMatchObject({ title: 'Last month', from: '2026-12-01', to: '2026-12-31' });
  });
});
