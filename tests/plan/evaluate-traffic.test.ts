import fc from 'fast-check';
import { expect, it } from 'vitest';
import { compileFaultModel, NO_HISTORY } from '../../trees/belief/index.ts';
import { evaluate, evaluateTraffic, startEvaluation } from '../../trees/plan/index.ts';
import { arbitraryTree } from '../support/arbitrary-tree.ts';
import { enumerateJobs } from '../support/enumerate-jobs.ts';
import { smallTree } from '../support/trees.ts';

const MOST_EVENTS = 1500;

it('what passes each branch is what walking the chart’s machine through every outcome passes, within 1e-9', () => {
  let compared = 0;
  fc.assert(
    fc.property(arbitraryTree(), fc.nat(9), (tree, which) => {
      const symptoms = Object.keys(tree.symptoms);
      const symptom = symptoms[which % symptoms.length] ?? '';
      const question = { model: compileFaultModel(tree, NO_HISTORY), symptom, rate: null };
      const expected = enumerateJobs({ ...question, goal: 'isolate' }, MOST_EVENTS);
      if (expected === null) return;
      const { traffic, stoodFor } = evaluateTraffic(question);
      if (stoodFor > 0) return;
      compared += expected.passed.size;
      for (const { symptom: path, step, probability, results } of traffic) {
        const gone = results.reduce((sum, one) => sum + one.probability, 0);
        const came = expected.came.get(`${path}/${step}`) ?? 0;
        expect(probability).toBeCloseTo(came, 9);
        // Where the test is barred for some, they come to the step and end there.
        if (tree.interlocks.length === 0) expect(gone).toBeCloseTo(probability, 9);
        expect(gone).toBeLessThan(probability + 1e-9);
        for (const one of results)
          expect(one.probability).toBeCloseTo(expected.passed.get(`${path}/${step}/${one.result}`) ?? 0, 9);
      }
      const passed = traffic.flatMap(({ results }) => results.filter(({ probability }) => probability > 0));
      expect(passed).toHaveLength(expected.passed.size);
    }),
    { numRuns: 200 },
  );
  expect(compared).toBeGreaterThan(300);
}, 120_000);

it('all units come to a path’s first step, and what leaves a step comes to the next', () => {
  const model = compileFaultModel(smallTree(), NO_HISTORY);
  const { traffic } = evaluateTraffic({ model, symptom: 'dark-screen', rate: null });
  const at = (step: string) => traffic.find((one) => one.step === step);
  expect(at('short')?.probability).toBeCloseTo(1, 12);
  const clear = at('short')?.results.find(({ result }) => result === 'clear')?.probability;
  expect(at('supply')?.probability).toBeCloseTo(clear ?? 0, 12);
});

it('the evaluation that comes with the traffic is the evaluation to isolate, within 1e-9', () => {
  fc.assert(
    fc.property(arbitraryTree(), (tree) => {
      const [symptom = ''] = Object.keys(tree.symptoms);
      const question = { model: compileFaultModel(tree, NO_HISTORY), symptom, rate: 60 };
      const plain = evaluate({ ...question, goal: 'isolate' });
      const found = evaluateTraffic(question);
      if (plain.stoodFor + found.stoodFor > 0) return;
      expect(found.expectedMinutes).toBeCloseTo(plain.expectedMinutes, 9);
      expect(found.rightFinding).toBeCloseTo(plain.rightFinding, 9);
      expect(found.expectedTests).toBeCloseTo(plain.expectedTests, 9);
    }),
    { numRuns: 100 },
  );
}, 120_000);

it('an evaluation made in pieces is the one made at once', () => {
  const model = compileFaultModel(smallTree(), NO_HISTORY);
  const question = { model, symptom: 'dark-screen', goal: 'fix', rate: 60 } as const;
  const goOn = startEvaluation(question);
  let pieces = 0;
  let found = goOn(7);
  for (; found === null; found = goOn(7)) pieces += 1;
  expect(found).toEqual(evaluate(question));
  expect(pieces).toBeGreaterThan(3);
});
