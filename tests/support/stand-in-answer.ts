import { referenceValue, type JobEvent, type Walk } from '../../trees/chart/index.ts';
import { limitsOf, type ResultLimits } from '../../trees/document/index.ts';

/**
 * The answer that gives a test this result where the walk stands, with an exact reading inside its band where the test is
 * measured; never zero, which no ratio can be taken to. Null where the bands cannot be had.
 */
export function standInAnswer(walk: Walk, id: string, result: string): JobEvent | null {
  const test = walk.chart.tree.tests[id];
  if (test === undefined) return null;
  const event = { kind: 'answer' as const, test: id, result };
  if (test.reading === undefined) return event;
  const reference = referenceValue(walk.chart.tree, walk.snapshot.context.job, id);
  const found = limitsOf(test, typeof reference === 'number' ? reference : undefined);
  const limits = found.ok ? found.limits.find((one) => one.result === result) : undefined;
  if (limits === undefined) return null;
  const value = inside(limits);
  return {
    ...event,
    reading: { value, typed: String(value).slice(0, 40), accuracy: { percent: 0, constant: 0 } },
  };
}

function inside({ from, to }: ResultLimits): number {
  if (from > -Infinity && to < Infinity) {
    const middle = (from + to) / 2;
    return middle === 0 ? from / 2 : middle;
  }
  if (to < Infinity) return to === 1 ? to / 2 : to - 1;
  if (from > -Infinity) return from === -1 ? from / 2 : from + 1;
  return 1;
}
