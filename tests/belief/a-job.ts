import type { Answer, JobState, RemedyTried } from '../../trees/chart/index.ts';

/** A job with nothing done yet but what is said. */
export function aJob(known: Partial<JobState> = {}): JobState {
  return { symptom: 'dark-screen', answers: [], skips: [], remedies: [], era: 0, ...known };
}

export function anAnswer(test: string, result: string, known: Partial<Answer> = {}): Answer {
  return { test, result, era: 0, ...known };
}

/** A reading in the test's SI unit, of ±1 % + 0.01 unless said otherwise. */
export function aReading(
  value: number | 'OL',
  accuracy = { percent: 1, constant: 0.01 },
): NonNullable<Answer['reading']> {
  return { value, typed: String(value), accuracy };
}

export function aRemedy(
  finding: string,
  state: RemedyTried['state'],
  evidence: readonly Answer[] = [],
): RemedyTried {
  return { finding, state, evidence, prove: [], proofs: [] };
}
