import fc from 'fast-check';
import { expect, test } from 'vitest';
import { reviewOf, type Facts, type JobFact, type ReviewFilter } from '../../trees/review/index.ts';
import { differenceOf } from '../support/alike.ts';
import {
  arbitraryFacts,
  arbitraryFilter,
  arbitraryNow,
  BOARDS,
  NOW,
  TECHNICIANS,
} from '../support/arbitrary-facts.ts';
import { factsOf } from '../support/facts-of.ts';
import { aFixedJob, CLOSED } from '../support/fixed-job.ts';
import { referenceReview } from '../support/reference-review.ts';

const WINDOW = 90 * 86_400_000;
const ALL: ReviewFilter = { from: null, to: null, tree: null, board: null, technician: null, window: 90 };

test('agrees to 1e-9 in every figure with a reference that goes over plain facts', () => {
  fc.assert(
    fc.property(arbitraryFacts(), arbitraryFilter(), arbitraryNow(), (jobs, filter, now) => {
      const { figures } = reviewOf(factsOf(jobs), filter, now);
      expect(differenceOf(figures, referenceReview(jobs, filter, now), 1e-9)).toBeNull();
    }),
    { numRuns: 300 },
  );
});

test('figures of filters that share no job add up to those of all', () => {
  fc.assert(
    fc.property(arbitraryFacts(), arbitraryFilter(), (jobs, filter) => {
      const facts = factsOf(jobs);
      const of = (part: Partial<ReviewFilter>) => reviewOf(facts, { ...filter, ...part }, NOW);
      for (const [name, values] of [
        ['board', BOARDS],
        ['technician', TECHNICIANS],
      ] as const) {
        const whole = of({ [name]: null });
        const parts = values.map((value) => of({ [name]: value }));
        expect(sums(parts.map(countsOf))).toEqual(countsOf(whole));
      }
    }),
  );
});

test('the groups of a review add up to its jobs, and its outcomes to one', () => {
  fc.assert(
    fc.property(arbitraryFacts(), arbitraryFilter(), (jobs, filter) => {
      const { figures } = reviewOf(factsOf(jobs), filter, NOW);
      const { byTree, bySymptom, byBoard, byTechnician, byMonth, byFinding, pareto, outcomes } = figures;
      for (const groups of [byTree, bySymptom, byBoard, byTechnician, byMonth]) {
        expect(sum(groups.map(({ closed }) => closed))).toBe(figures.jobs);
        expect(sum(groups.map(({ fixed }) => fixed))).toBe(figures.firstTimeFix.fixed);
      }
      expect(sum(pareto.map((bar) => bar.jobs))).toBe(sum(byFinding.map(({ closed }) => closed)));
      expect(sum(outcomes.map(({ share }) => share))).toBeCloseTo(figures.jobs === 0 ? 0 : 1, 12);
    }),
  );
});

test('the order of the blocks does not matter, but for rounding', () => {
  fc.assert(
    fc.property(arbitraryFacts(), arbitraryFilter(), (jobs, filter) => {
      const facts = factsOf(jobs);
      const turned: Facts = { ...facts, blocks: facts.blocks.toReversed() };
      const [one, other] = [reviewOf(facts, filter, NOW), reviewOf(turned, filter, NOW)];
      expect(differenceOf(one, other, 1e-12)).toBeNull();
    }),
  );
});

test('once every window has passed, the curve at the window is the share of fixed units that were not back within it', () => {
  fc.assert(
    fc.property(arbitraryFacts(), (jobs) => {
      const later = NOW + 400 * 86_400_000;
      const { atWindow } = reviewOf(factsOf(jobs), ALL, later).figures;
      const fixed = jobs.filter(({ outcome }) => outcome === 'fixed');
      const back = fixed.filter((job) => (job.backAt ?? Infinity) < job.closedAt + 90 * 86_400_000);
      if (fixed.length === 0) expect(atWindow).toBeNull();
      else expect(atWindow?.survival).toBeCloseTo(1 - back.length / fixed.length, 9);
    }),
  );
});

test('what findings are expected to have back adds up to what all have back, and technicians to what all fixed', () => {
  fc.assert(
    fc.property(arbitraryFacts(), arbitraryNow(), (jobs, now) => {
      const named = jobs.filter(({ outcome, finding }) => outcome !== 'fixed' || finding !== null);
      const { figures } = reviewOf(factsOf(named), ALL, now);
      const { comebacksByFinding, likeForLike, technicianSymptoms, firstTimeFix } = figures;
      expect(sum(comebacksByFinding.map(({ expected }) => expected))).toBeCloseTo(
        sum(comebacksByFinding.map(({ back }) => back)),
        9,
      );
      for (const rows of [likeForLike, technicianSymptoms]) {
        expect(sum(rows.map(({ closed }) => closed))).toBe(firstTimeFix.judged.closed);
        expect(sum(rows.map(({ fixed }) => fixed))).toBe(firstTimeFix.judged.fixed);
        expect(sum(rows.map(({ expected }) => expected))).toBeCloseTo(firstTimeFix.judged.fixed, 9);
      }
    }),
  );
});

test('where every unit is back before the window is over, none is not back at its end, and the exact limit says how sure that is', () => {
  const { place } = aFixedJob({});
  const jobs = [1, 2].map((days) => aFixedJob({ place: place + days, backAt: CLOSED + days * 86_400_000 }));
  const { comebackFree, atWindow } = reviewOf(factsOf(jobs), ALL, CLOSED + 200 * 86_400_000).figures;
  expect(comebackFree.at(-1)).toMatchObject({ days: 3, atRisk: 1, survival: 0 });
  expect(atWindow).toMatchObject({ days: 90, atRisk: 0, back: 0, survival: 0, low: 0 });
  expect(atWindow?.high).toBe(comebackFree.at(-1)?.high);
});

test('of no job every list is empty, every share 0, and nothing that needs jobs is there', () => {
  const { figures, wayCounts } = reviewOf(factsOf([]), ALL, NOW);
  expect(figures).toMatchObject({
    record: { jobs: 0, first: null, last: null },
    jobs: 0,
    firstTimeFix: {
      closed: 0,
      fixed: 0,
      rate: 0,
      low: 0,
      high: 1,
      stillOpen: 0,
      judged: { closed: 0, fixed: 0 },
    },
    byTree: [],
    byMonth: [],
    centre: null,
    comebackFree: [],
    atWindow: null,
    comebacksByFinding: [],
    likeForLike: [],
    technicianSymptoms: [],
    pareto: [],
    toFinding: null,
    toProof: null,
    minutes: [],
    calibration: {
      jobs: 0,
      percentages: 0,
      brier: null,
      reliability: null,
      resolution: null,
      uncertainty: null,
      bins: [],
    },
    triedFirst: [],
    change: null,
    planner: { taken: 0, notTaken: 0, kinds: 0, saved: null, wouldSave: null },
  });
  expect([...wayCounts]).toEqual([0]);
});

test('a month whose jobs may all still come back is drawn without limits and not judged', () => {
  fc.assert(
    fc.property(arbitraryFacts(), (jobs) => {
      const recent = jobs.map((job) => ({ ...job, closedAt: NOW - 3_600_000, backAt: null }));
      const { centre, byMonth, firstTimeFix } = reviewOf(factsOf(recent), ALL, NOW).figures;
      expect(centre).toBeNull();
      expect(firstTimeFix.stillOpen).toBe(firstTimeFix.fixed);
      for (const month of byMonth)
        expect(month).toMatchObject({ provisional: true, outOfControl: false, low: 0, high: 1 });
    }),
  );
});

test('a month that is over and already below its limit is out of control however many may still come back; one above is not', () => {
  const now = Date.UTC(2025, 8, 15);
  const rates = [0.8, 0.8, 0.8, 0.8, 0.8, 0.2, 1, 0.2];
  const jobs = rates.flatMap((rate, month) =>
    Array.from({ length: 50 }, (_, job) => {
      const closedAt = Date.UTC(2025, month + 1, 1 + (job % 13), 12, job);
      const outcome = job < 50 * rate ? 'fixed' : 'no-fault-found';
      return aFixedJob({ place: (closedAt - 3_600_000) * 1024, closedAt, outcome });
    }),
  );
  const { byMonth } = reviewOf(factsOf(jobs), ALL, now).figures;
  const marked = byMonth.map(({ month, provisional, outOfControl }) => ({
    month,
    provisional,
    outOfControl,
  }));
  // 90 days before the 15th of September is the 17th of June; September itself is not over.
  expect(marked.slice(3)).toEqual([
    { month: '2025-05', provisional: false, outOfControl: false },
    { month: '2025-06', provisional: true, outOfControl: false },
    { month: '2025-07', provisional: true, outOfControl: true },
    { month: '2025-08', provisional: true, outOfControl: false },
    { month: '2025-09', provisional: true, outOfControl: false },
  ]);
  const [, , , , , , august, september] = byMonth;
  expect(august?.rate).toBeGreaterThan(august?.high ?? 2);
  expect(september?.rate).toBeLessThan(september?.low ?? -1);
});

test.each([
  { late: -1, isFirst: false, back: 1 },
  { late: 0, isFirst: true, back: 0 },
])('a unit back $late ms after 90 days was back within them, or not', ({ late, isFirst, back }) => {
  const job = aFixedJob({ backAt: CLOSED + WINDOW + late });
  const { firstTimeFix, atWindow } = reviewOf(factsOf([job]), ALL, CLOSED + 2 * WINDOW).figures;
  expect(firstTimeFix.fixed).toBe(Number(isFirst));
  expect(atWindow).toMatchObject({ back, survival: 1 - back });
});

test.each([
  { early: 1, stillOpen: 1 },
  { early: 0, stillOpen: 0 },
])('$early ms before 90 days are over a unit may still come back, or not', ({ early, stillOpen }) => {
  const { firstTimeFix } = reviewOf(factsOf([aFixedJob({})]), ALL, CLOSED + WINDOW - early).figures;
  expect(firstTimeFix).toMatchObject({ fixed: 1, stillOpen });
});

test('a group is judged by its jobs whose window has passed, so that recent jobs without a comeback yet do not flatter it', () => {
  const now = CLOSED + 2 * WINDOW;
  const jobs = [0, 1, 2, 3].flatMap((place) => {
    const [old, recent] = [CLOSED + place * 60_000, now - WINDOW / 2 - place * 60_000];
    const parts: readonly Partial<JobFact>[] = [
      { closedAt: old, technician: 'ada' },
      { closedAt: recent, technician: 'bo' },
      { closedAt: old + 1, technician: 'bo', backAt: old + 1 + WINDOW / 2 },
      { closedAt: recent + 1, technician: 'bo', outcome: 'passed-on' },
    ];
    return parts.map((part) => aFixedJob({ ...part, place: ((part.closedAt ?? 0) - 3_600_000) * 1024 }));
  });
  const { byTechnician, firstTimeFix } = reviewOf(factsOf(jobs), ALL, now).figures;
  expect(byTechnician).toMatchObject([
    { id: 'ada', closed: 4, fixed: 4, stillOpen: 0, judged: { closed: 4, fixed: 4 } },
    { id: 'bo', closed: 12, fixed: 4, stillOpen: 4, judged: { closed: 4, fixed: 0 } },
  ]);
  expect(firstTimeFix.judged).toEqual({ closed: 8, fixed: 4 });
});

test('a return that is not known yet at the moment of the review is none', () => {
  const job = aFixedJob({ backAt: CLOSED + WINDOW / 2 });
  const fixedAt = (now: number) => reviewOf(factsOf([job]), ALL, now).figures.firstTimeFix.fixed;
  expect([fixedAt(CLOSED + WINDOW / 2 - 1), fixedAt(CLOSED + WINDOW / 2)]).toEqual([1, 0]);
});

function countsOf({ figures, wayCounts }: ReturnType<typeof reviewOf>): Readonly<Record<string, number>> {
  const { jobs, firstTimeFix, calibration, planner } = figures;
  return {
    jobs,
    fixed: firstTimeFix.fixed,
    stillOpen: firstTimeFix.stillOpen,
    percentages: calibration.percentages,
    taken: planner.taken,
    notTaken: planner.notTaken,
    toFinding: figures.toFinding?.jobs ?? 0,
    ways: sum([...wayCounts]),
  };
}

function sums(counts: readonly Readonly<Record<string, number>>[]): Readonly<Record<string, number>> {
  const names = Object.keys(counts[0] ?? {});
  return Object.fromEntries(names.map((name) => [name, sum(counts.map((count) => count[name] ?? 0))]));
}

function sum(values: readonly number[]): number {
  return values.reduce((total, value) => total + value, 0);
}
