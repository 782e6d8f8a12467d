/** Milliseconds since 1970-01-01T00:00:00Z. The only clock the records know is UTC. */
export type Clock = () => number;

export const systemClock: Clock = () => Date.now();

/** A clock's time as the records keep it: ISO 8601, milliseconds, Z. */
export function instant(milliseconds: number): string {
  return new Date(milliseconds).toISOString();
}
