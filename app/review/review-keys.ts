/** The keys of the Review area, as the help shows them. */
export const REVIEW_KEYS = [
  { keys: ['1', '…', '5'], does: 'To a part of the review' },
  { keys: ['F'], does: 'To the filters' },
  { keys: ['A'], does: 'All jobs: take every filter off' },
  { keys: ['R'], does: 'Reckon it again, with what has been closed since' },
] as const;
