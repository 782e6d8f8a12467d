import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import {
  beliefOf,
  branchLikelihoods,
  chosen,
  compileFaultModel,
  NO_HISTORY,
  type FaultModel,
  type History,
} from '../../trees/belief/index.ts';
import { readTree, type Tree } from '../../trees/document/index.ts';
import { evaluateTraffic } from '../../trees/plan/index.ts';
import { gammaDraws } from '../../trees/review/gamma.ts';
import { seededDraws, treeBranches, type TreeBranch } from '../../trees/review/index.ts';
import { betaInterval } from '../../trees/statistics/index.ts';
import { arbitraryCase } from '../belief/arbitrary-case.ts';
import { largeTree } from '../support/large-tree.ts';
import { likelihoodOver, waysToSteps, type Coming } from '../support/reference-branches.ts';
import { smallDocument, treeOf } from '../support/trees.ts';

test('at a step that is come to in one way a branch is as likely as the bench shows it, to 1e-9', () => {
  let compared = 0;
  fc.assert(
    fc.property(arbitraryCase(), ({ tree, history }) => {
      const model = compileFaultModel(tree, history);
      for (const { branch, ways } of withWays(model)) {
        const [way, ...others] = ways;
        if (way === undefined || others.length > 0 || way.given.has(branch.test)) continue;
        const observations = [...way.given].map(([made, gave]) => chosen(made, gave));
        const belief = beliefOf(model, way.from, { observations, failed: [] });
        const shown = branchLikelihoods(model, belief, branch.test);
        const { probability } = shown.find(({ result }) => result === branch.result) ?? { probability: NaN };
        expect(branch.now).toBeCloseTo(probability, 9);
        compared += 1;
      }
    }),
  );
  expect(compared).toBeGreaterThan(100);
});

test('over all ways to a step a branch is as likely as they say one by one, tests keeping their first answers, to 1e-9', () => {
  let metAgain = 0;
  fc.assert(
    fc.property(arbitraryCase(), ({ tree, history }) => {
      const model = compileFaultModel(tree, history);
      for (const { branch, ways } of withWays(model)) {
        metAgain += ways.filter(({ given }) => given.has(branch.test)).length;
        expect(branch.now).toBeCloseTo(likelihoodOver(model, ways, branch.test, branch.result), 9);
      }
    }),
  );
  expect(metAgain).toBeGreaterThan(10);
});

test('where nothing but the path decides, as many units go along a branch as an evaluation counts, to 1e-6', () => {
  for (const name of ['kw1-panel', 'kw1-usb-charge']) {
    const tree = shipped(name);
    for (const symptom of Object.keys(tree.symptoms)) {
      const model = compileFaultModel(withoutOthers(tree, symptom), NO_HISTORY);
      const { traffic, stoodFor } = evaluateTraffic({ model, symptom, rate: null });
      expect(stoodFor).toBe(0);
      const branches = treeBranches(model, seededDraws(1));
      for (const { step, symptom: of, results } of traffic) {
        const all = results.reduce((sum, { probability }) => sum + probability, 0);
        if (all < 1e-6) continue;
        for (const { result, probability } of results) {
          const branch = branches.find(
            (one) => one.step === step && one.symptom === of && one.result === result,
          );
          expect(branch?.now).toBeCloseTo(probability / all, 6);
        }
      }
    }
  }
});

test('the interval of one test under one finding is the Beta distribution’s own, within two points of percent', () => {
  const counts = { pass: 30, fail: 10 };
  const model = compileFaultModel(oneTest(), {
    ...NO_HISTORY,
    findings: { dead: { fuse: 40 } },
    results: { rail: { fuse: counts } },
  });
  const branches = treeBranches(model, seededDraws(7));
  const { weight, probability } = model.test('rail');
  const [strength = 0, share = 0] = [weight[0], probability[0]];
  const { mean, low, high } = betaInterval(strength * share, strength * (1 - share), 0.9);
  const pass = branches.find(({ result }) => result === 'pass');
  expect(pass?.now).toBeCloseTo(mean, 9);
  expect(Math.abs((pass?.low ?? NaN) - low)).toBeLessThan(0.02);
  expect(Math.abs((pass?.high ?? NaN) - high)).toBeLessThan(0.02);
});

test('an interval is within 0..1, in order, the same for the same seed, and narrower the more jobs there are', () => {
  const width = (jobs: number): number => {
    const history: History = {
      ...NO_HISTORY,
      findings: { dead: { fuse: jobs } },
      results: { rail: { fuse: { pass: jobs / 2, fail: jobs / 2 } } },
    };
    const [one = null] = treeBranches(compileFaultModel(oneTest(), history), seededDraws(3));
    return (one?.high ?? NaN) - (one?.low ?? NaN);
  };
  expect(width(100)).toBeLessThan(width(10));
  expect(width(1000)).toBeLessThan(width(100));
  const model = compileFaultModel(shipped('kw1-panel'), NO_HISTORY);
  const branches = treeBranches(model, seededDraws(5));
  expect(treeBranches(model, seededDraws(5))).toEqual(branches);
  for (const { low, high } of branches) {
    expect(low).toBeGreaterThanOrEqual(0);
    expect(low).toBeLessThanOrEqual(high ?? NaN);
    expect(high).toBeLessThanOrEqual(1);
  }
});

test('a tree of 2,000 steps has its branches without intervals, those of a step summing to one', () => {
  const branches = treeBranches(compileFaultModel(largeTree(), NO_HISTORY), seededDraws(1));
  const bySteps = Map.groupBy(branches, ({ step }) => step);
  expect(bySteps.size).toBe(1900);
  for (const ofStep of bySteps.values()) {
    expect(ofStep.reduce((sum, { now }) => sum + now, 0)).toBeCloseTo(1, 9);
    expect(ofStep.every(({ low, high }) => low === null && high === null)).toBe(true);
  }
});

test.each([0.08, 0.5, 1, 7.84, 200])(
  'gamma variates of shape %d have its mean and variance within five standard errors',
  (shape) => {
    const count = 40_000;
    const draw = gammaDraws(seededDraws(11));
    const values = Array.from({ length: count }, () => draw(shape));
    const mean = values.reduce((sum, value) => sum + value, 0) / count;
    const variance = values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / (count - 1);
    expect(Math.abs(mean - shape)).toBeLessThan(5 * Math.sqrt(shape / count));
    // The fourth central moment of a gamma distribution is 3 a² + 6 a.
    expect(Math.abs(variance - shape)).toBeLessThan(5 * Math.sqrt((2 * shape ** 2 + 6 * shape) / count));
  },
);

function withWays(model: FaultModel): readonly { branch: TreeBranch; ways: readonly Coming[] }[] {
  const ways = waysToSteps(model.tree, 3000);
  if (ways === null) return [];
  return treeBranches(model, seededDraws(1)).map((branch) => ({
    branch,
    ways: ways.filter(({ symptom, step }) => symptom === branch.symptom && step === branch.step),
  }));
}

function shipped(name: string): Tree {
  const read = readTree(readFileSync(new URL(`../../trees/library/${name}.tree.json`, import.meta.url)));
  if (read.tree === null) throw new Error(`the tree ${name} cannot be read`);
  return read.tree;
}

/** The tree with no interlock or earlier reading that is asked for on the way, and no path but one symptom's to begin with. */
function withoutOthers(tree: Tree, symptom: string): Tree {
  const symptoms = Object.fromEntries(
    Object.entries(tree.symptoms).map(([id, { first, ...rest }]) => [
      id,
      id === symptom && first !== undefined ? { ...rest, first } : rest,
    ]),
  );
  return { ...tree, symptoms, interlocks: [] };
}

function oneTest(): Tree {
  const small = smallDocument();
  const [instrument] = Object.values(small.tests);
  if (instrument === undefined) throw new Error('the small document has no test');
  return treeOf({
    ...small,
    defaults: { unlisted: 0 },
    bench: {},
    interlocks: [],
    tests: {
      rail: {
        title: 'Rail',
        ask: 'Look.',
        instrument: 'eye',
        minutes: 1,
        results: { pass: { title: 'Pass' }, fail: { title: 'Fail' } },
      },
    },
    findings: {
      fuse: {
        title: 'Fuse',
        because: 'It is.',
        remedy: { steps: ['Mend it.'], minutes: 1 },
        prove: ['rail'],
      },
    },
    symptoms: {
      dead: {
        title: 'Dead',
        first: 'one',
        steps: {
          one: { test: 'rail', then: { pass: { go: 'finding:fuse' }, fail: { go: 'finding:fuse' } } },
        },
      },
    },
  });
}
