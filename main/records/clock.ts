/** Milliseconds since 1970-01-01T00:00:00Z. The only clock the records know is UTC. */
export type Clock = () => number;

export const systemClock: Clock = () => Date.now();

/** A clock's time as the records keep it: ISO 8601, milliseconds, Z. */
export function instant(milliseconds: number): string {
  return new Date(milliseconds).toISOString();
}

/**
 * Now, or just after the last row of its kind where the clock does not say so (it was set back, or two rows fall in one
 * millisecond): of rows of which the last one holds, the last one added is the last by time.
 */
export function later(now: number, last: string | undefined): number {
  return last === undefined ? now : Math.max(now, Date.parse(last) + 1);
}
