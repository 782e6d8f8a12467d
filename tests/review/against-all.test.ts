import { describe, expect, test } from 'vitest';
import { reviewOf, type JobFact, type ReviewFilter } from '../../trees/review/index.ts';
import { factsOf } from '../support/facts-of.ts';
import { aFixedJob, CLOSED } from '../support/fixed-job.ts';

const ALL: ReviewFilter = { from: null, to: null, tree: null, board: null, technician: null, window: 90 };
const DAY = 86_400_000;
const LATER = CLOSED + 200 * DAY;

/** So many jobs of one kind, of which so many came to the rest. */
type Kind = readonly [count: number, of: number, part: Partial<JobFact>, rest: Partial<JobFact>];

function jobsOf(kinds: readonly Kind[]): readonly JobFact[] {
  const parts = kinds.flatMap(([count, of, part, rest]) =>
    Array.from({ length: of }, (_, number) => ({ ...part, ...(number < count ? rest : {}) })),
  );
  return parts.map((part, number) => aFixedJob({ ...part, place: (CLOSED - DAY) * 1024 + number }));
}

describe('comebacks by finding', () => {
  const backOn = (day: number): Partial<JobFact> => ({ backAt: CLOSED + (day - 0.5) * DAY });
  const of = (kinds: readonly Kind[], now = LATER) =>
    reviewOf(factsOf(jobsOf(kinds)), ALL, now).figures.comebacksByFinding;

  test('a finding whose units come back far more often than all is told, first', () => {
    const [first, ...others] = of([
      [4, 200, { finding: 'fuse' }, backOn(20)],
      [9, 30, { finding: 'fan' }, backOn(10)],
      [2, 100, { finding: 'coil' }, backOn(40)],
    ]);
    expect(first).toMatchObject({ finding: 'fan', fixed: 30, back: 9, differs: true });
    expect(first?.expected).toBeLessThan(2);
    expect(others.map(({ finding, differs }) => [finding, differs])).toEqual([
      ['fuse', true],
      ['coil', false],
    ]);
  });

  test('one unit back of two is not, however large the share', () => {
    const rare = of([
      [4, 200, { finding: 'fuse' }, backOn(20)],
      [1, 2, { finding: 'fan' }, backOn(10)],
    ]).find(({ finding }) => finding === 'fan');
    expect(rare?.atWindow?.survival).toBe(0.5);
    expect(rare?.differs).toBe(false);
  });

  test('units that are out for a few days are not expected back as those are that are out for long', () => {
    const [recent] = of(
      [
        [0, 40, { finding: 'fan', closedAt: LATER - 2 * DAY }, {}],
        [30, 60, { finding: 'fuse' }, backOn(30)],
      ],
      LATER,
    ).filter(({ finding }) => finding === 'fan');
    expect(recent).toMatchObject({ fixed: 40, back: 0, expected: 0, differs: false, atWindow: null });
  });

  test('what comes back after the window does not count', () => {
    expect(of([[5, 10, {}, backOn(91)]])).toMatchObject([{ fixed: 10, back: 0, expected: 0, chance: 1 }]);
  });
});

describe('technicians like for like', () => {
  const notFixed: Partial<JobFact> = { failed: 1 };
  const of = (kinds: readonly Kind[]) => reviewOf(factsOf(jobsOf(kinds)), ALL, LATER).figures;

  test('who is given the harder units has the lower rate, and does not differ', () => {
    const { byTechnician, likeForLike } = of([
      [2, 40, { technician: 'ada', symptom: 'dark' }, notFixed],
      [5, 10, { technician: 'ada', symptom: 'mute' }, notFixed],
      [1, 10, { technician: 'ben', symptom: 'dark' }, notFixed],
      [20, 40, { technician: 'ben', symptom: 'mute' }, notFixed],
    ]);
    expect(byTechnician.map(({ rate }) => rate)).toEqual([0.86, 0.58]);
    expect(likeForLike.map(({ differs }) => differs)).toEqual([false, false]);
    expect(likeForLike[1]?.expected).toBeCloseTo(10 * (47 / 50) + 40 * 0.5, 9);
  });

  test('who fixes fewer units of one symptom is told of that one, and not of the others', () => {
    const { technicianSymptoms } = of([
      [2, 40, { technician: 'ada', symptom: 'dark' }, notFixed],
      [2, 40, { technician: 'ada', symptom: 'mute' }, notFixed],
      [2, 40, { technician: 'ben', symptom: 'dark' }, notFixed],
      [24, 40, { technician: 'ben', symptom: 'mute' }, notFixed],
      [2, 40, { technician: 'cay', symptom: 'mute' }, notFixed],
    ]);
    const told = technicianSymptoms.filter(({ differs, fixed, expected }) => differs && fixed < expected);
    expect(told).toMatchObject([{ technician: 'ben', symptom: 'mute', closed: 40, fixed: 16 }]);
  });

  test('who is alone differs from nobody', () => {
    const { likeForLike, technicianSymptoms } = of([[10, 20, { technician: 'ada' }, notFixed]]);
    expect(likeForLike).toMatchObject([{ fixed: 10, expected: 10, chance: 1, differs: false }]);
    expect(technicianSymptoms).toMatchObject([{ fixed: 10, expected: 10, chance: 1, differs: false }]);
  });

  test('jobs that may still come back are not judged', () => {
    const recent = LATER - 10 * DAY;
    const { likeForLike } = of([
      [3, 10, { technician: 'ada' }, notFixed],
      [9, 10, { technician: 'ben', closedAt: recent }, notFixed],
    ]);
    expect(likeForLike).toMatchObject([{ technician: 'ada', closed: 10, fixed: 7 }]);
  });
});
