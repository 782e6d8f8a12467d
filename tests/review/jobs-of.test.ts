import fc from 'fast-check';
import { expect, test } from 'vitest';
import {
  jobsOf,
  reviewOf,
  type JobFact,
  type ReviewFilter,
  type Review,
  type Slice,
} from '../../trees/review/index.ts';
import { arbitraryFacts, arbitraryFilter, arbitraryNow, NOW } from '../support/arbitrary-facts.ts';
import { factsOf } from '../support/facts-of.ts';

const NO_ROWS = { places: [], backOn: [], failed: [] };
const EVERY = { before: null, limit: Infinity };
const ALL: ReviewFilter = { from: null, to: null, tree: null, board: null, technician: null, window: 90 };

test('behind every figure there are as many jobs as it says, and their places newest first', () => {
  fc.assert(
    fc.property(arbitraryFacts(), arbitraryFilter(), (jobs, filter) => {
      const facts = factsOf(jobs);
      const { figures } = reviewOf(facts, filter, NOW);
      for (const [slice, count] of slicesOf(figures, filter.window)) {
        const { total, places } = jobsOf(facts, filter, NOW, slice, EVERY);
        expect([slice, total]).toEqual([slice, count]);
        expect(places).toEqual(places.toSorted((a, b) => b - a));
        expect(new Set(places).size).toBe(count);
      }
    }),
  );
});

test('behind a percentage are the confirmed jobs that had it shown at least once', () => {
  fc.assert(
    fc.property(arbitraryFacts(), fc.integer({ min: 0, max: 9 }), (jobs, tenth) => {
      const [from, to] = [tenth / 10, (tenth + 1) / 10];
      const isIn = (percent: number): boolean =>
        percent >= 10 * tenth && (percent < 10 * (tenth + 1) || (tenth === 9 && percent === 100));
      const had = jobs.filter(({ finding, shown }) => finding !== null && shown.some(isIn));
      const { places } = jobsOf(factsOf(jobs), ALL, NOW, { kind: 'shown', from, to }, EVERY);
      expect(places).toEqual(newestFirst(had));
    }),
  );
});

test('pages follow each other without a gap and say how many jobs there are in all', () => {
  fc.assert(
    fc.property(arbitraryFacts(), fc.integer({ min: 1, max: 7 }), (jobs, limit) => {
      const facts = factsOf(jobs);
      const read: number[] = [];
      for (let before: number | null = null; ; before = read.at(-1) ?? null) {
        const page = jobsOf(facts, ALL, NOW, { kind: 'all' }, { before, limit });
        expect(page.total).toBe(jobs.length);
        expect(page.places.length).toBeLessThanOrEqual(limit);
        if (page.places.length === 0) break;
        read.push(...page.places);
      }
      expect(read).toEqual(newestFirst(jobs));
    }),
  );
});

test('each job says the day after closing on which its unit was back, as far as is known', () => {
  fc.assert(
    fc.property(arbitraryFacts(), arbitraryNow(), (jobs, now) => {
      const { places, backOn } = jobsOf(factsOf(jobs), ALL, now, { kind: 'all' }, EVERY);
      const byPlace = new Map(jobs.map((job) => [job.place, job]));
      expect(backOn).toEqual(places.map((place) => dayBack(byPlace.get(place), now)));
    }),
  );
});

test('each job says how many remedies were tried in vain', () => {
  fc.assert(
    fc.property(arbitraryFacts(), (jobs) => {
      const { places, failed } = jobsOf(factsOf(jobs), ALL, NOW, { kind: 'all' }, EVERY);
      const byPlace = new Map(jobs.map((job) => [job.place, job.failed]));
      expect(failed).toEqual(places.map((place) => byPlace.get(place)));
    }),
  );
});

/** The day after closing, the first being 1, on which a unit was back; 0 where it was not by `now`. */
function dayBack(job: JobFact | undefined, now: number): number {
  if (job === undefined || job.backAt === null || job.backAt > now) return 0;
  let day = 1;
  while (job.closedAt + day * 86_400_000 <= job.backAt) day += 1;
  return day;
}

test('there is no job behind a branch of which no way is known', () => {
  const slice: Slice = { kind: 'branch', tree: 'gull', symptom: 'dark', step: 'one', result: 'good' };
  fc.assert(
    fc.property(arbitraryFacts(), (jobs) => {
      expect(jobsOf(factsOf(jobs), ALL, NOW, slice, EVERY)).toEqual({ total: 0, ...NO_ROWS });
    }),
  );
});

function newestFirst(jobs: readonly JobFact[]): readonly number[] {
  return jobs.map(({ place }) => place).sort((a, b) => b - a);
}

/** Every slice that a review shows a count of, with that count. */
function slicesOf(figures: Omit<Review, 'branches'>, window: number): readonly (readonly [Slice, number])[] {
  const { firstTimeFix, planner } = figures;
  const back = figures.comebackFree.map(({ days }): readonly [Slice, number] => [
    { kind: 'back', within: days },
    figures.comebackFree.reduce((sum, point) => sum + (point.days <= days ? point.back : 0), 0),
  ]);
  const slices: (readonly [Slice, number])[] = [
    [{ kind: 'all' }, figures.jobs],
    [{ kind: 'first-time-fixed' }, firstTimeFix.fixed],
    [{ kind: 'not-first-time-fixed' }, firstTimeFix.closed - firstTimeFix.fixed],
    [{ kind: 'advised', taken: true }, planner.taken],
    [{ kind: 'advised', taken: false }, planner.notTaken],
    [{ kind: 'shown', from: 0, to: 1 }, figures.calibration.jobs],
    ...figures.byMonth.map(({ month, closed }) => [{ kind: 'month', month }, closed] as const),
    ...figures.outcomes.map(({ outcome, count }) => [{ kind: 'outcome', outcome }, count] as const),
    ...figures.byTree.map(({ id, closed }) => [{ kind: 'tree', tree: id }, closed] as const),
    ...figures.byTechnician.map(
      ({ id, closed }) => [{ kind: 'technician', technician: id }, closed] as const,
    ),
    ...figures.bySymptom.map(
      ({ id, tree, closed }) => [{ kind: 'symptom', tree: tree ?? '', symptom: id }, closed] as const,
    ),
    ...figures.byBoard.map(
      ({ id, tree, closed }) => [{ kind: 'board', tree: tree ?? '', board: id }, closed] as const,
    ),
    ...figures.byFinding.map(
      ({ id, tree, closed }) => [{ kind: 'finding', tree: tree ?? '', finding: id }, closed] as const,
    ),
    ...figures.comebacksByFinding.flatMap(({ tree, finding, fixed, back }) => [
      [{ kind: 'finding-fixed', tree, finding }, fixed] as const,
      [{ kind: 'finding-back', tree, finding, within: window }, back] as const,
    ]),
    ...figures.technicianSymptoms.map(
      ({ technician, tree, symptom, closed }) =>
        [{ kind: 'judged', technician, tree, symptom }, closed] as const,
    ),
    ...figures.minutes.flatMap(({ tree, symptom, toFinding, toProof }) => [
      [{ kind: 'found', tree, symptom }, toFinding?.jobs ?? 0] as const,
      [{ kind: 'proven', tree, symptom }, toProof?.jobs ?? 0] as const,
    ]),
    ...(['byTree', 'bySymptom', 'byFinding', 'byBoard', 'byTechnician'] as const).flatMap((by) =>
      figures[by].map(({ id, tree, judged }) => [judgedOf(by, id, tree ?? ''), judged.closed] as const),
    ),
    ...figures.likeForLike.map(
      ({ technician, closed }) => [{ kind: 'technician', technician, judged: true }, closed] as const,
    ),
    ...figures.triedFirst.flatMap(({ tree, finding, count, of, instead }) => [
      [{ kind: 'tried', tree, finding }, of] as const,
      [{ kind: 'tried-in-vain', tree, finding }, of - count] as const,
      ...instead.map(
        (one) => [{ kind: 'tried-instead', tree, finding, was: one.finding }, one.jobs] as const,
      ),
    ]),
    ...figures.pareto.map(({ tree, finding, jobs }) => [{ kind: 'finding', tree, finding }, jobs] as const),
    ...back,
  ];
  return slices;
}

function judgedOf(
  by: 'byTree' | 'bySymptom' | 'byFinding' | 'byBoard' | 'byTechnician',
  id: string,
  tree: string,
): Slice {
  switch (by) {
    case 'byTree':
      return { kind: 'tree', tree: id, judged: true };
    case 'bySymptom':
      return { kind: 'symptom', tree, symptom: id, judged: true };
    case 'byFinding':
      return { kind: 'finding', tree, finding: id, judged: true };
    case 'byBoard':
      return { kind: 'board', tree, board: id, judged: true };
    case 'byTechnician':
      return { kind: 'technician', technician: id, judged: true };
  }
}
