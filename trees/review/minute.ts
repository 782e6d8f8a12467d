/** Milliseconds of a minute. */
export const MINUTE = 60_000;
