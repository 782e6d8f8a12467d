import type { ReviewPage, ReviewSlice } from '../../../main/contract/index.ts';

/** What a part of the page is shown from. */
export interface SectionProps {
  readonly page: ReviewPage;
  /** Days within which a unit that is back is a comeback. */
  readonly window: number;
  /** Opens the jobs behind a figure. */
  readonly onpick: (slice: ReviewSlice) => void;
}
