/** Wrong tries that are let through within a minute. */
export const MOST_TRIES = 5;
const MINUTE = 60_000;

export type Tries = ReturnType<typeof createTries>;

/** Counts wrong tries of a passphrase. `now` is in milliseconds and never runs backwards. */
export function createTries(now: () => number) {
  let wrong: number[] = [];
  return {
    /**
     * Tries, unless there were too many wrong tries within the last minute (null). A try counts as wrong until it is
     * known to be right, so that tries made at once are no way round.
     */
    async try(check: () => Promise<boolean>): Promise<boolean | null> {
      const at = now();
      wrong = wrong.filter((earlier) => at - earlier < MINUTE);
      if (wrong.length >= MOST_TRIES) return null;
      wrong.push(at);
      const right = await check();
      if (right) wrong.splice(wrong.indexOf(at), 1);
      return right;
    },
  };
}
