import type { Draw } from './gamma.ts';

/** Uniform numbers in [0, 1) from a stated seed: mulberry32, a public-domain 32-bit generator; constants recalled. */
export function seededDraws(seed: number): Draw {
  let state = seed | 0;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 0x1_0000_0000;
  };
}
