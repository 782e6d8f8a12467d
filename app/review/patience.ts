/**
 * How long the review's answers are waited for, in milliseconds: the first one after a start works out what every tree expects,
 * which takes seconds, and on a machine that is busy with other things much longer.
 */
export const REVIEW_PATIENCE = 120_000;
