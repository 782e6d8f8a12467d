import { v7 } from 'uuid';

/** Makes a new UUIDv7 for something that happened at `milliseconds` UTC. */
export type Ids = (milliseconds: number) => string;

/** Ids from the system's randomness. */
export function systemIds(): Ids {
  return (milliseconds) => next(milliseconds, (length) => crypto.getRandomValues(new Uint8Array(length)));
}

/** Ids from a stated source of numbers in [0, 1), so that the same source gives the same ids. */
export function seededIds(random: () => number): Ids {
  const bytes = (length: number) => {
    const made = new Uint8Array(length);
    for (let at = 0; at < length; at += 1) made[at] = random() * 256;
    return made;
  };
  return (milliseconds) => next(milliseconds, bytes);
}

function next(milliseconds: number, bytes: (length: number) => Uint8Array): string {
  return v7({ msecs: milliseconds, random: bytes(16) });
}
