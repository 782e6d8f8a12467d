import type { ReviewJob, ReviewPage, ReviewSlice } from '../../contract/index.ts';
import type { ReviewFilter } from '../../../trees/review/index.ts';
import type { SymptomExpected } from '../../records/index.ts';
import type { Answer } from '../answer.ts';

/** What can be asked of the review. `now` is in milliseconds since 1970 UTC. */
export type ReviewQuestion =
  | { readonly kind: 'figures'; readonly filter: ReviewFilter; readonly now: number }
  | ({ readonly kind: 'jobs'; readonly filter: ReviewFilter; readonly now: number } & JobsAsked)
  /** Works out what the current revisions expect, where that is not on record. */
  | { readonly kind: 'expect' }
  /** Loads and works out beforehand what every question needs. */
  | { readonly kind: 'warm' };

/** A page of the jobs behind a figure: so many of those opened before `before`, which an earlier page gave. */
export interface JobsAsked {
  readonly slice: ReviewSlice;
  readonly before: string | null;
  readonly limit: number;
}

export interface ReviewJobs {
  readonly jobs: ReviewJob[];
  readonly total: number;
  readonly next: string | null;
}

interface Values {
  readonly figures: ReviewPage;
  readonly jobs: ReviewJobs;
  readonly expect: readonly SymptomExpected[];
  readonly warm: null;
}

/** What a question of this kind is answered with. */
export type ReviewValue<K extends ReviewQuestion['kind']> = Values[K];

export type AnyReviewAnswer = Answer<Values[keyof Values]>;
