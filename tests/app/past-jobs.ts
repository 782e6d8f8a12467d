import type { PastJob } from '../../main/contract/index.ts';
import { SPEAKER_MENDED } from '../support/temp-shop.ts';

export const SMALL_REVISION = '01900000-0000-7000-8000-000000000003';

/** A closed job of the small tree: its speaker was open, and is mended. */
export function pastSpeakerJob(at: number): PastJob {
  return {
    jobId: `01900000-0000-7000-8000-0000000001${String(at).padStart(2, '0')}`,
    serial: `S-${String(at)}`,
    reference: '',
    symptom: 'no-sound',
    openedAt: '2026-03-02T09:00:00.000Z',
    closedAt: '2026-03-02T10:00:00.000Z',
    outcome: 'fixed',
    finding: 'speaker-open',
    revisionId: SMALL_REVISION,
    events: [...SPEAKER_MENDED],
  };
}
