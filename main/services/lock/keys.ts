import { randomBytes } from 'node:crypto';

/** Minutes after its last use for which a key is good. */
export const KEY_MINUTES = 15;

/** Keys kept at once; the oldest gives way. */
const MOST_KEYS = 64;

export type Keys = ReturnType<typeof createKeys>;

/**
 * Keys to publish with, in memory only: each is good for one lock (by its salt) and until it has not been used for a while.
 * `now` is in milliseconds and never runs backwards.
 */
export function createKeys(now: () => number) {
  const keys = new Map<string, { readonly salt: string; readonly until: number }>();
  const hold = (key: string, salt: string): void => {
    keys.delete(key);
    keys.set(key, { salt, until: now() + KEY_MINUTES * 60_000 });
    const [oldest] = keys.keys();
    if (keys.size > MOST_KEYS && oldest !== undefined) keys.delete(oldest);
  };
  return {
    /** A new key for the lock of this salt: 32 random bytes. */
    give(salt: string): string {
      const key = randomBytes(32).toString('base64url');
      hold(key, salt);
      return key;
    },
    /** Uses a key: whether it is good for the lock of this salt, which then holds for another while. */
    use(key: string, salt: string): boolean {
      const known = keys.get(key);
      const good = known !== undefined && known.salt === salt && known.until > now();
      if (good) hold(key, salt);
      else keys.delete(key);
      return good;
    },
  };
}
