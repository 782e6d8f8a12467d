import type { Layout } from './evaluate-layout.ts';
import type { Passed } from './evaluate-sweep.ts';
import type { World } from './evaluate-world.ts';

/** How many of all units that come with a symptom come to a step, and by which of its test's results they go on. */
export interface StepTraffic {
  readonly symptom: string;
  readonly step: string;
  /** Of one unit; the sum over the results, and those units whose test here cannot be made. */
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
    passed(step, result, amount) {
      const row = (units[step] ??= (layout.steps[step]?.leads ?? []).map(() => 0));
      row[result] = (row[result] ?? 0) + amount;
    },
    result() {
      const coming = comingTo(layout, units);
      return layout.steps.flatMap(({ test, symptom, step }, index) => {
        const probability = coming[index] ?? 0;
        if (probability === 0) return [];
        const ids = layout.tests[test]?.results ?? [];
        const results = ids.map((result, place) => ({ result, probability: units[index]?.[place] ?? 0 }));
        return [{ symptom, step, probability, results }];
      });
    },
  };
}

/** By step, all units that come to it: from the start, and along branches. */
function comingTo({ steps, first }: Layout, units: readonly (readonly number[] | undefined)[]): Float64Array {
  const coming = new Float64Array(steps.length);
  if (first.kind === 'step') coming[first.index] = 1;
  steps.forEach(({ leads }, index) =>
    leads.forEach((lead, place) => {
      const amount = units[index]?.[place] ?? 0;
      if (lead.kind === 'step') coming[lead.index] = (coming[lead.index] ?? 0) + amount;
    }),
  );
  return coming;
}
