import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  compileChart,
  courseFrom,
  firstPlace,
  moveNow,
  standing,
  startWalk,
  whereabouts,
  type Place,
} from '../../trees/chart/index.ts';
import { placeOf } from '../../trees/chart/place.ts';
import { arbitraryTree } from '../support/arbitrary-tree.ts';
import { smallTree } from '../support/trees.ts';
import { after, follow, measured, wander, type Dice } from './walking.ts';

const dice = fc.tuple(fc.nat(9999), fc.nat(9999), fc.nat(9999), fc.nat(9999));
const throws: fc.Arbitrary<readonly Dice[]> = fc.array(dice, { maxLength: 60, size: 'max' });

describe('whereabouts', () => {
  it('are where the machine’s course stands, on random walks of random trees, a test turned to excepted', () => {
    const seen = new Map<Place['kind'], number>();
    fc.assert(
      fc.property(arbitraryTree(), fc.nat(9), throws, (tree, which, drawn) => {
        const symptoms = Object.keys(tree.symptoms);
        const ways = wander(compileChart(tree), symptoms[which % symptoms.length] ?? '', drawn);
        for (const { walk } of ways) {
          const place = placeOf(tree, walk.snapshot.value);
          seen.set(place.kind, (seen.get(place.kind) ?? 0) + 1);
          if (place.kind === 'aside') continue;
          const { job } = walk.snapshot.context;
          expect(whereabouts(tree, walk.snapshot.context)).toEqual({ job, place });
        }
      }),
      { numRuns: 400 },
    );
    for (const kind of ['step', 'finding', 'remedy', 'proof', 'mended', 'adrift', 'closed'] as const)
      expect(seen.get(kind), kind).toBeGreaterThan(20);
  });

  it('write into the job how a proof ended, as the machine does', () => {
    const walk = after(
      startWalk(compileChart(smallTree()), 'no-sound'),
      { kind: 'start-remedy', finding: 'volume-down' },
      { kind: 'change', axis: 'shell', to: 'open' },
      { kind: 'remedy-done' },
      measured('supply-resistance', 'clear', 300),
      { kind: 'change', axis: 'power', to: 'on' },
    );
    const { job, bench } = walk.snapshot.context;
    const at = (result: string) => {
      const answer = { test: 'tone', result, era: 1 };
      const remedies = job.remedies.map((remedy) => ({ ...remedy, proofs: [answer] }));
      return whereabouts(smallTree(), {
        job: { ...job, answers: [...job.answers, answer], remedies },
        bench,
        passed: [],
      });
    };
    expect(at('heard')).toMatchObject({
      place: { kind: 'mended' },
      job: { remedies: [{ state: 'mended' }] },
    });
    expect(at('silent')).toMatchObject({
      place: { kind: 'finding', finding: 'speaker-open' },
      job: { remedies: [{ state: 'not-mended' }] },
    });
  });

  it('can be taken up from a place already come to', () => {
    fc.assert(
      fc.property(arbitraryTree(), fc.nat(99), (tree, answers) => {
        const symptom = Object.keys(tree.symptoms)[0] ?? '';
        const walk = follow(startWalk(compileChart(tree), symptom), (test) => answers + test.length);
        const { job } = walk.snapshot.context;
        const place = placeOf(tree, walk.snapshot.value);
        expect(courseFrom(tree, job, firstPlace(tree, symptom))).toEqual(place);
        expect(courseFrom(tree, job, place)).toEqual(place);
      }),
    );
  });
});

describe('the move now', () => {
  it('is the act shown wherever that is a changeover, a test or a way barred, and null where it is not', () => {
    fc.assert(
      fc.property(arbitraryTree(), throws, (tree, drawn) => {
        for (const { walk } of wander(compileChart(tree), Object.keys(tree.symptoms)[0] ?? '', drawn)) {
          const { act } = standing(walk);
          if (act.kind === 'closed') continue;
          const move = moveNow(tree, walk.snapshot.context, placeOf(tree, walk.snapshot.value));
          if (move === null || move.kind === 'no-way')
            expect(['finding', 'remedy', 'contradiction', 'mended', 'adrift']).toContain(act.kind);
          else expect(act).toMatchObject(move);
        }
      }),
      { numRuns: 200 },
    );
  });
});
