import { entropyBits, gainBits } from './information-gain.ts';
import { resultAt } from './marks.ts';
import { startPosition, type Position } from './position.ts';
import type { Problem } from './problem.ts';

/** How much of what a test would tell by itself it still tells after others; found by trial on random problems. */
const EFFECT = 0.5;

/**
 * A guess at the minutes that it takes to tell findings apart until no more than `rest` bits are open: the tests that are
 * left, those that tell most a minute first, each telling a part of what it would tell at the start. Infinite where they
 * do not tell so much together.
 */
export function minutesToTell(problem: Problem, rest: number): (position: Position) => number {
  const { belief } = startPosition(problem);
  const told = problem.tests
    .map((test, at) => ({ at, minutes: test.minutes, bits: test.available ? gainBits(test, belief) : 0 }))
    .filter(({ bits }) => bits > 0)
    .sort((a, b) => a.minutes / a.bits - b.minutes / b.bits);
  return (position) => {
    let open = entropyBits(position.belief) - rest;
    let minutes = 0;
    for (const { at, bits, minutes: takes } of told) {
      if (open <= 0) break;
      if (resultAt(position.marks[at] ?? 0) >= 0) continue;
      minutes += takes * Math.min(1, open / (EFFECT * bits));
      open -= EFFECT * bits;
    }
    return open <= 0 ? minutes : Infinity;
  };
}
