import { randomBytes } from 'node:crypto';

/** How long the address that lets a browser in is good for. */
export const TOKEN_LIFETIME_MS = 5 * 60_000;

export interface Tokens {
  readonly issue: () => string;
  /** True once for each issued token within its lifetime; false ever after. */
  readonly spend: (token: string) => boolean;
}

/** One-time tokens. `now` gives milliseconds and never goes back. */
export function createTokens(now: () => number): Tokens {
  const expiries = new Map<string, number>();
  return {
    issue: () => {
      for (const [token, expiry] of expiries) if (expiry <= now()) expiries.delete(token);
      const token = secret();
      expiries.set(token, now() + TOKEN_LIFETIME_MS);
      return token;
    },
    spend: (token) => {
      const expiry = expiries.get(token);
      expiries.delete(token);
      return expiry !== undefined && now() < expiry;
    },
  };
}

/** 256 random bits that may stand in an address or a header. */
export const secret = (): string => randomBytes(32).toString('base64url');
