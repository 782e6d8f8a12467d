import type { Outcome, Reading } from './event.ts';

/** The answer a test has now. `era` counts the remedies done before it was given. */
export interface Answer {
  readonly test: string;
  readonly result: string;
  readonly reading?: Reading;
  /** For ratio bands: the value of the earlier reading that the bands were taken against. */
  readonly reference?: number;
  readonly era: number;
}

/** A test passed over: the course went on as if it had given `as`, or left the path where there is none; no evidence. */
export interface Skip {
  readonly test: string;
  readonly as?: string;
  readonly reason: string;
}

export type RemedyState = 'in-hand' | 'proving' | 'mended' | 'not-mended' | 'given-up';

/** One remedy taken in hand, with the answers that stood when it was (the evidence that led to it). */
export interface RemedyTried {
  readonly finding: string;
  readonly what?: string;
  readonly state: RemedyState;
  readonly evidence: readonly Answer[];
  /** Tests that must give their first result, in order, and the results they have given since. */
  readonly prove: readonly string[];
  readonly proofs: readonly Answer[];
  readonly reason?: string;
}

/** What a job knows at one moment: the chart's context. Answers are in the order they were (last) given. */
export interface JobState {
  readonly symptom: string;
  readonly answers: readonly Answer[];
  readonly skips: readonly Skip[];
  readonly remedies: readonly RemedyTried[];
  readonly era: number;
  /** The second, differing answer that waits to be settled. */
  readonly contradiction?: Answer;
  readonly outcome?: Outcome;
  readonly note?: string;
}
