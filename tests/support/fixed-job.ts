import type { JobFact } from '../../trees/review/index.ts';

/** When {@link aFixedJob} was closed. */
export const CLOSED = Date.UTC(2024, 1, 29, 15);

/** A job that was fixed at once and is not back, but for what is said of it. */
export function aFixedJob(part: Partial<JobFact>): JobFact {
  return {
    place: (CLOSED - 3_600_000) * 1024,
    closedAt: CLOSED,
    tree: 'gull',
    symptom: 'dark',
    board: 'A1',
    technician: 'ada',
    outcome: 'fixed',
    finding: 'fuse',
    tried: 'fuse',
    failed: 0,
    backAt: null,
    toFinding: 60_000,
    toProof: 120_000,
    atBench: 180_000,
    tests: 2,
    parts: 1,
    advised: 0,
    answers: [],
    shown: [],
    confirmed: null,
    ...part,
  };
}
