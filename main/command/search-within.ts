import { setImmediate } from 'node:timers/promises';
import { startSearch, type Plan, type PlanQuestion } from '../../trees/plan/index.ts';
import { isMemoryShort } from './memory.ts';

/** Positions opened between two looks at the clock: some milliseconds. */
const PORTION = 20;

/**
 * The best plan that an exact search finds within so many seconds, or as far as memory lasts, with its gap; at Ctrl+C
 * it stops and gives what it has, and at a second one the process ends as it would without.
 */
export async function searchWithin(question: PlanQuestion, seconds: number): Promise<Plan> {
  const end = performance.now() + seconds * 1000;
  let stopped = false;
  const stop = (): void => {
    stopped = true;
  };
  process.once('SIGINT', stop);
  try {
    const search = startSearch(question);
    const isOver = (): boolean =>
      search.solved || search.full || stopped || performance.now() >= end || isMemoryShort();
    while (!isOver()) {
      search.run(PORTION);
      // Ctrl+C is heard only between portions.
      await setImmediate();
    }
    return search.plan();
  } finally {
    process.removeListener('SIGINT', stop);
  }
}
