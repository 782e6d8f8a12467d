import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { compileChart, situationAfter, type JobEvent } from '../../trees/chart/index.ts';
import { placeOf } from '../../trees/chart/place.ts';
import { arbitraryTree } from '../support/arbitrary-tree.ts';
import { wander, type Dice } from './walking.ts';

const dice = fc.tuple(fc.nat(9999), fc.nat(9999), fc.nat(9999), fc.nat(9999));
const throws: fc.Arbitrary<readonly Dice[]> = fc.array(dice, { maxLength: 60, size: 'max' });

describe('the situation after an event', () => {
  it('is what the machine comes to, on random walks of random trees, a test turned to excepted', () => {
    const seen = new Map<JobEvent['kind'], number>();
    fc.assert(
      fc.property(arbitraryTree(), fc.nat(9), throws, (tree, which, drawn) => {
        const symptoms = Object.keys(tree.symptoms);
        const ways = wander(compileChart(tree), symptoms[which % symptoms.length] ?? '', drawn);
        ways.slice(1).forEach(({ walk, event }, index) => {
          const before = ways[index]?.walk;
          if (event === undefined || before === undefined || event.kind === 'take-back') return;
          if (placeOf(tree, before.snapshot.value).kind === 'aside') return;
          seen.set(event.kind, (seen.get(event.kind) ?? 0) + 1);
          const { job, bench } = situationAfter(tree, before.snapshot.context, event);
          const after = walk.snapshot.context;
          expect({ job, bench }).toEqual({ job: after.job, bench: after.bench });
        });
      }),
      { numRuns: 300 },
    );
    for (const kind of [
      'answer',
      'correct',
      'settle',
      'skip',
      'change',
      'start-remedy',
      'remedy-done',
    ] as const)
      expect(seen.get(kind), kind).toBeGreaterThan(20);
  });
});
