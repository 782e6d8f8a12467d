import { describe, expect, test } from 'vitest';
import { backChance, findingsBackWords } from '../../../app/review/words/comeback-words.ts';
import { likeChance, likeWords } from '../../../app/review/words/like-words.ts';
import type {
  FindingComebacks,
  LikeForLike,
  Review,
  TechnicianSymptom,
} from '../../../trees/review/index.ts';
import { reviewOf } from '../../../trees/review/index.ts';
import { factsOf } from '../../support/facts-of.ts';

const ALL = { from: null, to: null, tree: null, board: null, technician: null, window: 90 };
const NONE: Review = { ...reviewOf(factsOf([]), ALL, 0).figures, branches: [] };

describe('which repairs come back', () => {
  const finding = (id: string, more: Partial<FindingComebacks> = {}): FindingComebacks => ({
    ...{ tree: 'gull', finding: id, fixed: 48, back: 9, expected: 2.31, atWindow: null },
    ...{ chance: 0.0002, corrected: 0.004, differs: true, ...more },
  });
  const words = (...comebacksByFinding: readonly FindingComebacks[]) =>
    findingsBackWords({ ...NONE, comebacksByFinding }, 90, (one) => one.finding.toUpperCase());

  test('is told finding by finding where it is more than chance, both ways', () => {
    const rare = finding('coil', { fixed: 1204, back: 3, expected: 130.4 });
    expect(words(finding('fan'), rare)).toBe(
      'More than chance, of 2 findings looked at together: units with “FAN” come back more often, 9 of 48 where 2.3 would be as usual; units with “COIL” come back less often, 3 of 1,204 where 130 would be as usual.',
    );
  });

  test('is told of three at most', () => {
    expect(words(...['a', 'b', 'c', 'd', 'e'].map((id) => finding(id)))).toContain('; and 2 others.');
  });

  test('is not said to be nothing where too few are back to tell', () => {
    const same = { differs: false, corrected: 1, expected: 1 };
    expect(words(finding('fan', { ...same, back: 0 }))).toContain('Too few to say: no unit is back');
    expect(words(finding('fan', { ...same, back: 1 }))).toContain('Too few to say: only 1 unit is back');
    expect(words(finding('fan', { ...same, back: 4 }))).toContain('from 5 on');
    expect(words(finding('fan', { ...same, back: 5 }))).toContain('None by more than chance: 5 units');
  });

  test('is marked in the table by its way and its chance', () => {
    expect(backChance(finding('fan'))).toBe('0.004 more often');
    expect(backChance(finding('fan', { expected: 30 }))).toBe('0.004 less often');
    expect(backChance(finding('fan', { differs: false, corrected: 0.4 }))).toBe('0.40');
  });
});

describe('whom to train in what', () => {
  const person = (technician: string): LikeForLike => ({
    ...{ technician, closed: 40, fixed: 16, expected: 30, chance: 0.5, corrected: 1, differs: false },
  });
  const pair = (technician: string, more: Partial<TechnicianSymptom> = {}): TechnicianSymptom => ({
    ...{ ...person(technician), tree: 'gull', symptom: 'dark', ...more },
  });
  const words = (technicianSymptoms: readonly TechnicianSymptom[], people = ['ada', 'ben'], judged = 80) =>
    likeWords({
      ...NONE,
      likeForLike: people.map(person),
      technicianSymptoms,
      firstTimeFix: { ...NONE.firstTimeFix, judged: { closed: judged, fixed: judged } },
    });

  test('is not asked of jobs that may all still come back, nor of one technician', () => {
    expect(words([], [], 0)).toContain('cannot be said yet');
    expect(words([pair('ada')], ['ada'])).toContain('nobody to hold them against');
  });

  test('is nobody where no pair differs, and too few are told as such', () => {
    expect(words([pair('ada'), pair('ben')])).toMatch(
      /^Nobody in anything, .* none of 2 pairs .*together\.$/,
    );
    expect(words([pair('ada', { closed: 19 })])).toContain('no pair with 20 jobs to judge');
  });

  test('is how many pairs differ where some do', () => {
    expect(words([pair('ada', { differs: true }), pair('ben')])).toContain('1 differs by more than chance');
    expect(words([pair('ada', { differs: true }), pair('ben', { differs: true })])).toContain('2 differ by');
  });

  test('is marked in the table by its way and its chance', () => {
    expect(likeChance(pair('ada', { differs: true, corrected: 0.01 }))).toBe('0.010 below');
    expect(likeChance(pair('ada', { differs: true, corrected: 0.01, expected: 3 }))).toBe('0.010 above');
    expect(likeChance(pair('ada', { corrected: 0.7 }))).toBe('0.70');
  });
});
