import type { Outcome } from '../chart/index.ts';

/** What the review keeps of one closed job. Moments are milliseconds since 1970 UTC, lengths of time milliseconds. */
export interface JobFact {
  /** Sorts jobs by when they were opened; no two have the same. */
  readonly place: number;
  readonly closedAt: number;
  readonly tree: string;
  readonly symptom: string;
  readonly board: string;
  /** Who closed the job. */
  readonly technician: string;
  readonly outcome: Outcome;
  /** The finding whose remedy mended the unit, `unlisted` among them; null where none did. */
  readonly finding: string | null;
  /** The finding whose remedy was the first to be proved, whether it mended the unit or not; null where none was. */
  readonly tried: string | null;
  /** Remedies whose proof was made and which did not mend the unit. */
  readonly failed: number;
  /** When the unit was next brought in after the job was closed; null where it has not been. */
  readonly backAt: number | null;
  /** Time at the bench until the remedy that mended the unit was taken in hand; null where none did. */
  readonly toFinding: number | null;
  /** Time at the bench until the last act before the job was closed as fixed; null where it was not. */
  readonly toProof: number | null;
  /** Time at the bench in all. */
  readonly atBench: number;
  /** Tests answered. */
  readonly tests: number;
  /** Price of the parts of all remedies that were done. */
  readonly parts: number;
  /** Acts that were taken from the planner's advice. */
  readonly advised: number;
  /** What a confirmed job's tests gave: its results as the tree's bands now sort them. Empty where nothing was confirmed. */
  readonly answers: readonly { readonly test: string; readonly result: string }[];
  /** The percentages that the bench showed beside the likely findings when the first remedy was taken in hand, likeliest first. */
  readonly shown: readonly number[];
  /** Which of those the confirmed finding was; null where it was none of them, or nothing was confirmed. */
  readonly confirmed: number | null;
}

/** Likely findings that the bench shows with their percentages. */
export const SHOWN = 6;
/** Stands in a column of lengths of time for none. */
export const NO_TIME = 0xffff_ffff;
/** Stands in the column `confirmed` for none of those shown. */
export const NOT_SHOWN = 0xff;

/**
 * The facts of the jobs that were opened on one day, column by column, ascending by place. Codes stand for names
 * ({@link FactNames}); 0 in `finding`, `tried` and `way` is none, 0 in `backAt` not back.
 */
export interface FactColumns {
  readonly rows: number;
  readonly place: Float64Array;
  readonly closedAt: Float64Array;
  readonly backAt: Float64Array;
  readonly parts: Float64Array;
  readonly toFinding: Uint32Array;
  readonly toProof: Uint32Array;
  readonly atBench: Uint32Array;
  readonly way: Uint32Array;
  readonly symptom: Uint16Array;
  readonly finding: Uint16Array;
  readonly tried: Uint16Array;
  readonly board: Uint16Array;
  readonly technician: Uint16Array;
  readonly tests: Uint16Array;
  /** Its number in OUTCOMES. */
  readonly outcome: Uint8Array;
  readonly failed: Uint8Array;
  readonly advised: Uint8Array;
  readonly confirmed: Uint8Array;
  /** How many percentages were shown. */
  readonly listed: Uint8Array;
  /** {@link SHOWN} a row. */
  readonly shown: Uint8Array;
}

/** What the codes in the columns stand for; entry 0 of each list is unused. */
export interface FactNames {
  readonly symptoms: readonly { readonly tree: string; readonly symptom: string }[];
  readonly findings: readonly { readonly tree: string; readonly finding: string }[];
  readonly boards: readonly { readonly tree: string; readonly board: string }[];
  /** Ids of technicians. */
  readonly technicians: readonly string[];
}

/** The results that a confirmed job's tests gave, in the order of their ids; many jobs have the same. */
export interface Way {
  readonly tree: string;
  readonly symptom: string;
  readonly answers: readonly { readonly test: string; readonly result: string }[];
}

/** All that the review's figures are made of. */
export interface Facts {
  /** A day each, in order. */
  readonly blocks: readonly FactColumns[];
  readonly names: FactNames;
  /** By the code in the column `way`; entry 0 is unused. */
  readonly ways: readonly (Way | undefined)[];
}

/** Which closed jobs a review is of, and what counts as a comeback. */
export interface ReviewFilter {
  /** First and last day (UTC, `YYYY-MM-DD`) on which a job was closed; null for no limit. */
  readonly from: string | null;
  readonly to: string | null;
  readonly tree: string | null;
  readonly board: string | null;
  /** Who closed it, by id. */
  readonly technician: string | null;
  /** Days within which a unit that is back is a comeback. */
  readonly window: number;
}

/** Common practice, no source: the quarter of a year for which many shops stand behind a repair. */
export const COMEBACK_WINDOW_DAYS = 90;

/** Narrows a review to nothing. */
export const ALL_JOBS: ReviewFilter = {
  from: null,
  to: null,
  tree: null,
  board: null,
  technician: null,
  window: COMEBACK_WINDOW_DAYS,
};
