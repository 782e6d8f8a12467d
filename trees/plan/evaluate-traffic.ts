import { unitsGiving } from './evaluate-flow.ts';
import type { Passed } from './evaluate-sweep.ts';
import type { World } from './evaluate-world.ts';

/** How many of all units that come with a symptom go past a step, and by which of its test's results. */
export interface StepTraffic {
  readonly symptom: string;
  readonly step: string;
  /** Of one unit; the sum over the results. */
  readonly probability: number;
  readonly results: readonly { readonly result: string; readonly probability: number }[];
}

/** Adds up what passes each branch; a step is gone past also by an answer that was given earlier. */
export function openTraffic({ layout }: World): {
  readonly passed: Passed;
  readonly result: () => readonly StepTraffic[];
} {
  const units: number[][] = [];
  return {
    passed(spots, { spot, test }, result, flow, shares) {
      const amount = unitsGiving(flow, shares);
      spots.along(spot, test, result, (step, by) => {
        const row = (units[step] ??= (layout.steps[step]?.leads ?? []).map(() => 0));
        row[by] = (row[by] ?? 0) + amount;
      });
    },
    result: () =>
      layout.steps.flatMap(({ test, symptom, step }, index) => {
        const row = units[index];
        if (row === undefined) return [];
        const ids = layout.tests[test]?.results ?? [];
        const results = ids.map((result, place) => ({ result, probability: row[place] ?? 0 }));
        const probability = row.reduce((sum, share) => sum + share, 0);
        return [{ symptom, step, probability, results }];
      }),
  };
}
