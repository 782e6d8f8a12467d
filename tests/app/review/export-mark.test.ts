import fc from 'fast-check';
import { expect, test } from 'vitest';
import { exportMark, markedName } from '../../../app/review/export-mark.ts';
import { NO_NAMES } from '../../../app/review/words/titles.ts';
import { ALL_JOBS, reviewOf, type ReviewFilter } from '../../../trees/review/index.ts';
import { factsOf } from '../../support/facts-of.ts';

const asOf = Date.parse('2026-11-27T01:00:00Z');
const review = { ...reviewOf(factsOf([]), ALL_JOBS, asOf).figures, branches: [] };
const page = { review, invented: false, names: { ...NO_NAMES, technicians: { t1: 'Zoë Brandt / night' } } };

function fileOf(filter: Partial<ReviewFilter>): string {
  return exportMark({ ...ALL_JOBS, ...filter }, page).file;
}

test('a saved file is named by what it is narrowed to, nothing else, and by the day it was reckoned on', () => {
  expect(fileOf({})).toBe('as-of-2026-11-27');
  expect(fileOf({ board: 'A2', from: '2026-05-01', to: '2026-05-31' })).toBe(
    'board-a2-2026-05-01-to-2026-05-31-as-of-2026-11-27',
  );
  expect(fileOf({ tree: 'gull', board: '', technician: 't1', to: '2026-05-31', window: 30 })).toBe(
    'gull-no-board-by-zoë-brandt-night-up-to-2026-05-31-window-30-as-of-2026-11-27',
  );
  expect(markedName('ohmward-findings', { file: '', words: '' })).toBe('ohmward-findings');
});

test('whatever a board or technician is called, the name holds letters, figures and single hyphens only, and is short', () => {
  const text = fc.string({ unit: 'grapheme', maxLength: 200 });
  fc.assert(
    fc.property(text, text, (board, technician) => {
      const file = fileOf({ board, technician });
      expect(file).toMatch(/^[\p{L}\p{M}\p{N}]+(-[\p{L}\p{M}\p{N}]+)*$/u);
      expect([...file].length).toBeLessThan(110);
    }),
  );
});

test('in words it says of which jobs it is, within how many days where that is not the usual, and that jobs are invented', () => {
  expect(exportMark(ALL_JOBS, page).words).toBe('All closed jobs; as of 27 Nov 2026.');
  const words = exportMark({ ...ALL_JOBS, board: 'A2', window: 30 }, { ...page, invented: true }).words;
  expect(words).toBe(
    'Jobs with board A2; comebacks within 30 days; as of 27 Nov 2026; invented jobs among them.',
  );
});
