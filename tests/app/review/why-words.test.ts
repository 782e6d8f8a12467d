import { describe, expect, it } from 'vitest';
import { backWords, vainWords, whyIn } from '../../../app/review/jobs/why-words.ts';
import type { ReviewJob, ReviewSlice } from '../../../main/contract/index.ts';

const job = (more: Partial<ReviewJob>): ReviewJob => ({
  ...{ jobId: 'J', treeId: 'gull', revisionId: 'R', family: 'Gull', board: '', serial: 'S-1', reference: '' },
  ...{ symptom: 'dark', symptomTitle: 'Dark', technicianId: 'T', technician: 'Ada', invented: false },
  ...{ openedAt: '2026-01-01T08:00:00.000Z', lastAt: '2026-01-01T09:00:00.000Z', events: 9 },
  ...{ outcome: 'fixed', finding: 'fuse', findingTitle: 'Fuse', backOn: null, backWith: null, failed: 0 },
  ...more,
});
const said = (slice: ReviewSlice, window: number, more: Partial<ReviewJob>) => {
  const why = whyIn(slice, window);
  return why === null ? null : [why.back(job(more)), why.words(job(more))];
};

describe('why a job was not fixed the first time', () => {
  const slice = { kind: 'not-first-time-fixed' } as const;

  it('is that its unit is back within the comeback window, the last day of it counted', () => {
    expect(said(slice, 90, { backOn: 12 })).toEqual(['back on day 12', '']);
    expect(said(slice, 90, { backOn: 90 })).toEqual(['back on day 90', '']);
    expect(said(slice, 90, { backOn: 91 })).toEqual([null, '']);
    expect(said(slice, 30, { backOn: 31 })).toEqual([null, '']);
  });

  it('is that remedies were in vain, before the one that mended the unit if one did', () => {
    expect(vainWords(job({ failed: 1 }))).toBe('1 remedy in vain before');
    expect(vainWords(job({ failed: 2 }))).toBe('2 remedies in vain before');
    expect(vainWords(job({ failed: 2, outcome: 'beyond-economic-repair' }))).toBe('2 remedies in vain');
  });

  it('may be both', () => {
    expect(said(slice, 90, { backOn: 3, failed: 1 })).toEqual(['back on day 3', '1 remedy in vain before']);
  });

  it('is not that a unit is back that was never closed as fixed: its outcome says it', () => {
    expect(backWords(job({ outcome: 'declined', backOn: 3 }), 90)).toBeNull();
  });
});

describe('the column of why', () => {
  it('has the day for units that are back, within the days of the figure and not the filter’s', () => {
    const slice = { kind: 'finding-back', tree: 'gull', finding: 'fuse', within: 30 } as const;
    expect(said(slice, 90, { backOn: 30, failed: 1 })).toEqual(['day 30', '']);
    expect(whyIn(slice, 90)?.title).toBe('Back on');
    expect(said({ kind: 'back', within: 7 }, 90, { backOn: 8 })).toEqual([null, '']);
  });

  it('says of whom the first time was not enough where a figure is of both', () => {
    expect(said({ kind: 'technician', technician: 'T' }, 90, {})).toEqual([null, '']);
    expect(said({ kind: 'month', month: '2026-01' }, 90, { failed: 1 })).toEqual([
      null,
      '1 remedy in vain before',
    ]);
  });

  it('is left out where the figure says it all', () => {
    expect(whyIn({ kind: 'first-time-fixed' }, 90)).toBeNull();
    expect(whyIn({ kind: 'outcome', outcome: 'no-fault-found' }, 90)).toBeNull();
    expect(whyIn({ kind: 'advised', taken: true }, 90)).toBeNull();
  });
});
