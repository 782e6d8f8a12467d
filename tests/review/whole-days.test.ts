import fc from 'fast-check';
import { expect, test } from 'vitest';
import { reviewOf, withoutRow, type JobFact, type ReviewFilter } from '../../trees/review/index.ts';
import { differenceOf } from '../support/alike.ts';
import { arbitraryFacts, arbitraryFilter, arbitraryNow, NOW } from '../support/arbitrary-facts.ts';
import { factsOf } from '../support/facts-of.ts';
import { referenceReview } from '../support/reference-review.ts';

const OPENED = Date.UTC(2024, 0, 15) * 1024;
const DAY = 86_400_000 * 1024;
const ALL: ReviewFilter = { from: null, to: null, tree: null, board: null, technician: null, window: 90 };

/** A thousand jobs that were opened on two days, so that a filter may well leave hundreds of one, and with them a few of other days. */
const arbitraryDays = fc
  .tuple(arbitraryFacts(), fc.integer({ min: 900, max: 1100 }))
  .filter(([jobs]) => jobs.length > 3)
  .map(([jobs, count]) => {
    const ofTwoDays = Array.from({ length: count }, (_, place): JobFact[] =>
      jobs
        .slice(place % jobs.length)
        .slice(0, 1)
        .map((job) => ({ ...job, place: OPENED + (place % 2) * DAY + place })),
    );
    const few = jobs.slice(0, 3).map((job, place) => ({ ...job, place: OPENED + 9 * DAY + place }));
    return [...ofTwoDays.flat(), ...few];
  });

test('what is kept of days with many jobs gives the same figures, asked for the first time or again, by any filter', () => {
  fc.assert(
    fc.property(arbitraryDays, arbitraryFilter(), arbitraryNow(), (jobs, filter, now) => {
      const facts = factsOf(jobs);
      for (const [asked, at] of [
        [ALL, NOW],
        [ALL, now],
        [filter, now],
        [{ ...filter, from: null, to: null }, NOW],
      ] as const) {
        const { figures } = reviewOf(facts, asked, at);
        expect(differenceOf(figures, referenceReview(jobs, asked, at), 1e-9)).toBeNull();
      }
    }),
    { numRuns: 25 },
  );
});

test('nothing is kept of a day that has changed', () => {
  fc.assert(
    fc.property(arbitraryDays, (jobs) => {
      const facts = factsOf(jobs);
      reviewOf(facts, ALL, NOW);
      const left = jobs.filter(({ place }) => place !== OPENED + 8);
      const changed = { ...facts, blocks: facts.blocks.map((columns) => withoutRow(columns, OPENED + 8)) };
      const { figures } = reviewOf(changed, ALL, NOW);
      expect(figures.jobs).toBe(jobs.length - 1);
      expect(differenceOf(figures, referenceReview(left, ALL, NOW), 1e-9)).toBeNull();
    }),
    { numRuns: 8 },
  );
});
