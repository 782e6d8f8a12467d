import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { filterIn, queryOfFilter } from '../../../app/review/filter/address.ts';
import { sliceIn, wordOfSlice } from '../../../app/review/jobs/slice-address.ts';
import { hashOf, routeOf, withQuery } from '../../../app/shell/route.svelte.ts';
import type { ReviewSlice } from '../../../main/contract/index.ts';
import { OUTCOMES } from '../../../trees/chart/index.ts';
import { ALL_JOBS } from '../../../trees/review/index.ts';

const PERSON = '01900000-0000-7000-8000-0000000000c0';
const id = fc.stringMatching(/^[a-z][a-z0-9]{0,7}(-[a-z0-9]{1,8}){0,3}$/);
const board = fc.string({ unit: 'grapheme', maxLength: 12 }).filter(({ length }) => length <= 40);
const day = fc
  .date({ min: new Date('2000-01-01'), max: new Date('2099-12-31'), noInvalidDate: true })
  .map((date) => date.toISOString().slice(0, 10));
const share = fc.integer({ min: 0, max: 100 }).map((percent) => percent / 100);
const orNull = <T>(one: fc.Arbitrary<T>) => fc.option(one, { nil: null });

const filter = fc.record({
  from: orNull(day),
  to: orNull(day),
  tree: orNull(id),
  board: orNull(board),
  technician: orNull(fc.constant(PERSON)),
  window: fc.integer({ min: 1, max: 730 }),
});

const kind = <K extends string>(name: K) => ({ kind: fc.constant(name) });
/** A group's jobs, or only those of them whose comeback window has passed. */
const someJudged = <T extends object>(group: fc.Arbitrary<T>) =>
  fc.tuple(group, fc.boolean()).map(([one, judged]) => (judged ? { ...one, judged: true as const } : one));
const slice: fc.Arbitrary<ReviewSlice> = fc.oneof(
  fc.record(kind('all')),
  fc.record(kind('first-time-fixed')),
  fc.record(kind('not-first-time-fixed')),
  fc.record({ ...kind('month'), month: day.map((one) => one.slice(0, 7)) }),
  fc.record({ ...kind('outcome'), outcome: fc.constantFrom(...OUTCOMES) }),
  someJudged(fc.record({ ...kind('tree'), tree: id })),
  someJudged(fc.record({ ...kind('symptom'), tree: id, symptom: id })),
  someJudged(fc.record({ ...kind('finding'), tree: id, finding: id })),
  someJudged(fc.record({ ...kind('board'), tree: id, board: fc.oneof(board, fc.constant('judged')) })),
  someJudged(fc.record({ ...kind('technician'), technician: fc.constant(PERSON) })),
  fc.record({ ...kind('back'), within: fc.integer({ min: 0, max: 36_500 }) }),
  fc.record({ ...kind('finding-fixed'), tree: id, finding: id }),
  fc.record({ ...kind('finding-back'), tree: id, finding: id, within: fc.integer({ min: 0, max: 36_500 }) }),
  fc.record({ ...kind('tried'), tree: id, finding: id }),
  fc.record({ ...kind('tried-in-vain'), tree: id, finding: id }),
  fc.record({ ...kind('tried-instead'), tree: id, finding: id, was: id }),
  fc.record({ ...kind('found'), tree: id, symptom: id }),
  fc.record({ ...kind('proven'), tree: id, symptom: id }),
  fc.record({ ...kind('judged'), technician: fc.constant(PERSON), tree: id, symptom: id }),
  fc.record({ ...kind('branch'), tree: id, symptom: id, step: id, result: id }),
  fc.record({ ...kind('shown'), from: share, to: share }),
  fc.record({ ...kind('advised'), taken: fc.boolean() }),
);

describe('the address of a review', () => {
  it('gives back the filters and the jobs shown that were put in it', () => {
    fc.assert(
      fc.property(filter, orNull(slice), (asked, jobs) => {
        const word = jobs === null ? null : wordOfSlice(jobs);
        const { query } = routeOf(withQuery(hashOf('review'), { ...queryOfFilter(asked), jobs: word }));
        expect(filterIn(query)).toEqual({ filter: asked, unsound: [] });
        expect(query['jobs'] === undefined ? null : sliceIn(query['jobs'])).toEqual(jobs);
      }),
    );
  });

  it('says nothing of filters that are not set', () => {
    expect(withQuery('#/review', queryOfFilter(ALL_JOBS))).toBe('#/review');
    expect(filterIn({})).toEqual({ filter: ALL_JOBS, unsound: [] });
  });

  it('names what is no filter, and keeps the others', () => {
    const query = { from: '2026-02-30', to: '2026-03-31', by: 'Mara', window: '0', tree: 'kw-1' };
    expect(filterIn(query)).toEqual({
      filter: { ...ALL_JOBS, to: '2026-03-31', tree: 'kw-1' },
      unsound: ['from', 'technician', 'window'],
    });
    expect(filterIn({ window: '1e2' }).unsound).toEqual(['window']);
  });

  it.each([
    '',
    'toString',
    'month',
    'month:2026-13',
    'all:x',
    'back:',
    'back:1.5',
    'advised:yes',
    'finding:a',
    'finding:a:b:c',
    'finding:a:b:judged:judged',
    'all:judged',
  ])('takes %j for no jobs', (word) => {
    expect(sliceIn(word)).toBeNull();
  });
});
