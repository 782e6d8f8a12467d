import fc from 'fast-check';
import { OUTCOMES } from '../../trees/chart/index.ts';
import { SHOWN, type JobFact, type ReviewFilter } from '../../trees/review/index.ts';

const DAY = 86_400_000;
const HOUR = 3_600_000;
/** The first day of {@link arbitraryFacts}, two months before a leap day. */
const START = Date.UTC(2023, 11, 20);
/** When the comebacks of {@link arbitraryFacts} are known, some months after most of them. */
export const NOW = Date.UTC(2024, 7, 5, 12);

const TREES = ['gull', 'tern'];
const SYMPTOMS = ['dark', 'silent'];
const FINDINGS = ['fuse', 'ribbon', 'unlisted'];
export const BOARDS = ['A1', 'B2'];
export const TECHNICIANS = ['ada', 'ben', 'cy'];

/** Closed jobs over seven months; often of one kind, so that strata fill, and often at the edge of a day or a window. */
export function arbitraryFacts(): fc.Arbitrary<readonly JobFact[]> {
  const few = fc.array(arbitraryJob(), { maxLength: 12 });
  const many = fc.array(arbitraryJob(), { minLength: 60, maxLength: 120 });
  return fc.oneof(few, many).map((jobs) => jobs.map((job, place) => ({ ...job, place: job.place + place })));
}

export function arbitraryFilter(): fc.Arbitrary<ReviewFilter> {
  const day = fc.integer({ min: 0, max: 220 }).map((days) => textOf(START + days * DAY));
  return fc.record({
    from: fc.option(day, { freq: 2 }),
    to: fc.option(day, { freq: 2 }),
    tree: fc.option(fc.constantFrom(...TREES), { freq: 2 }),
    board: fc.option(fc.constantFrom(...BOARDS), { freq: 2 }),
    technician: fc.option(fc.constantFrom(...TECHNICIANS), { freq: 2 }),
    window: fc.constantFrom(1, 30, 90),
  });
}

function textOf(moment: number): string {
  return new Date(moment).toISOString().slice(0, 10);
}

/** Moments at which comebacks are known, at and beside the ends of months' windows among them. */
export function arbitraryNow(): fc.Arbitrary<number> {
  const ends = [Date.UTC(2024, 4, 1 + 90), Date.UTC(2024, 6, 1 + 30), Date.UTC(2024, 7, 1 + 1)];
  return fc.constantFrom(NOW, ...ends, ...ends.map((end) => end - 1));
}

/** A length of time that is at the edge of a day half of the times. */
function arbitraryTime(days: number): fc.Arbitrary<number> {
  const whole = fc.oneof(fc.constantFrom(1, 30, 90), fc.integer({ min: 0, max: days }));
  const off = fc.oneof(fc.constantFrom(-1, 0, 1), fc.integer({ min: 0, max: DAY - 1 }));
  return fc.tuple(whole, off).map(([count, rest]) => Math.max(0, count * DAY + rest));
}

function arbitraryJob(): fc.Arbitrary<JobFact> {
  return fc
    .record({
      opened: arbitraryTime(215),
      took: fc.integer({ min: 0, max: 2 * DAY }),
      tree: fc.constantFrom(...TREES),
      symptom: fc.constantFrom('dark', ...SYMPTOMS),
      finding: fc.constantFrom('fuse', 'fuse', ...FINDINGS),
      board: fc.constantFrom(...BOARDS),
      technician: fc.constantFrom(...TECHNICIANS),
      outcome: fc.constantFrom('fixed' as const, 'fixed' as const, 'fixed' as const, ...OUTCOMES),
      failed: fc.constantFrom(0, 0, 0, 1, 2),
      other: fc.constantFrom(...FINDINGS),
      back: fc.option(arbitraryTime(100), { freq: 1 }),
      atBench: fc.integer({ min: 0, max: 3 * HOUR }),
      shares: fc.tuple(
        fc.double({ min: 0, max: 1, noNaN: true }),
        fc.double({ min: 0, max: 1, noNaN: true }),
      ),
      parts: fc.integer({ min: 0, max: 5000 }),
      advised: fc.constantFrom(0, 0, 1, 3),
      shown: fc.array(fc.integer({ min: 0, max: 100 }), { maxLength: SHOWN }),
      right: fc.nat({ max: SHOWN }),
      tests: fc.nat({ max: 9 }),
    })
    .map(({ opened, took, back, other, shares: [proof, finding], shown, right, ...job }): JobFact => {
      const isFixed = job.outcome === 'fixed';
      const toProof = isFixed ? Math.floor(job.atBench * proof) : null;
      const closedAt = START + opened + took;
      return {
        ...job,
        place: (START + opened) * 1024,
        closedAt,
        finding: isFixed ? job.finding : null,
        tried: job.failed > 0 ? other : isFixed ? job.finding : null,
        parts: job.parts / 100,
        backAt: back === null ? null : closedAt + back,
        toFinding: toProof === null ? null : Math.floor(toProof * finding),
        toProof,
        answers: isFixed ? [{ test: 'rail', result: job.finding }] : [],
        shown,
        confirmed: isFixed && right < shown.length ? right : null,
      };
    });
}
