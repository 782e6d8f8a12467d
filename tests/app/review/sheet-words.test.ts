import { expect, test } from 'vitest';
import type { MonthRecord } from '../../../app/review/sheet/sheet-desk.svelte.ts';
import {
  mayComeBack,
  monthsMissing,
  personVerdict,
  sinceWords,
} from '../../../app/review/sheet/sheet-words.ts';
import { NO_NAMES } from '../../../app/review/words/titles.ts';
import { ALL_JOBS, reviewOf, type FirstTimeFix, type Review } from '../../../trees/review/index.ts';
import { rateOf } from '../../../trees/statistics/index.ts';
import { factsOf } from '../../support/facts-of.ts';

const NONE: Review = { ...reviewOf(factsOf([]), ALL_JOBS, 0).figures, branches: [] };
const NO_CHOICES = { trees: [], boards: [], technicians: [] };

/** The sheet of June 2026, as it is reckoned at a moment, of a record that begins on a day. */
function june(asOf: string, first: string, jobs = 0): MonthRecord {
  const review = { ...NONE, jobs, asOf: Date.parse(asOf), record: { jobs, first, last: first } };
  const page = { review, names: NO_NAMES, choices: NO_CHOICES, invented: false, complete: true };
  const back = { jobs: [], total: 0 };
  return { month: '2026-06', filter: { ...ALL_JOBS, window: 30 }, page, year: page, back };
}

function fixOf(fixed: number, closed: number, judged = { closed, fixed }): FirstTimeFix {
  const { share, low, high } = rateOf(fixed, closed);
  return { closed, fixed, rate: share, low, high, stillOpen: closed - judged.closed, judged };
}

test('units of a month may come back until the window of what was fixed in its last moment is over, and no longer', () => {
  expect(mayComeBack(june('2026-06-10', '2025-11-27'))).toBe(true);
  expect(mayComeBack(june('2026-07-30T23:59:59.999Z', '2025-11-27'))).toBe(true);
  expect(mayComeBack(june('2026-07-31T00:00:00Z', '2025-11-27'))).toBe(false);
  expect(mayComeBack(june('2026-11-27', '2025-11-27'))).toBe(false);
});

test('the months beside a sheet are told of since they begin, or since the record does where that is later', () => {
  expect(sinceWords(june('2026-11-27', '2025-11-27'))).toBe('27 Nov 2025');
  expect(sinceWords(june('2026-11-27', '2025-06-02'))).toBe('2 Jun 2025');
  expect(sinceWords(june('2026-11-27', '2025-06-01'))).toBe('June 2025');
  expect(sinceWords(june('2026-11-27', '2021-03-05'))).toBe('June 2025');
  expect(monthsMissing(june('2026-11-27', '2025-11-27', 12))).toContain('12 jobs since 27 Nov 2025;');
});

test('a technician of few jobs or a wide interval is not judged, and one of many by jobs whose window has passed', () => {
  const all = fixOf(640, 1000);
  expect(personVerdict(fixOf(0, 3), all)).toBe('too few to say');
  expect(personVerdict(fixOf(19, 19), all)).toBe('too few to say');
  expect(personVerdict(fixOf(10, 20), all)).toBe('too few to say');
  expect(personVerdict(fixOf(13, 20), all)).toBe('within');
  expect(personVerdict(fixOf(30, 100), all)).toBe('below: more than chance');
  expect(personVerdict(fixOf(98, 100), all)).toBe('above: more than chance');
  expect(personVerdict(fixOf(98, 100, { closed: 10, fixed: 8 }), all)).toBe('within');
  expect(personVerdict(fixOf(98, 100, { closed: 0, fixed: 0 }), all)).toBe('not judged yet');
});
