import { describe, expect, it } from 'vitest';
import { periodsOn } from '../../../app/review/filter/periods.ts';

describe('the periods that are mostly looked at', () => {
  it('are whole months, over the turn of a year and in a leap February', () => {
    expect(periodsOn('2028-02-10').map(({ id, from, to }) => [id, from, to])).toEqual([
      ['month', '2028-02-01', '2028-02-29'],
      ['quarter', '2027-12-01', '2028-02-29'],
      ['year', '2028-01-01', '2028-12-31'],
      ['all', null, null],
    ]);
  });
});
