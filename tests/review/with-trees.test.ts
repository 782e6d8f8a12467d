import fc from 'fast-check';
import { expect, test } from 'vitest';
import { compileFaultModel, NO_HISTORY } from '../../trees/belief/index.ts';
import { destination, type Tree } from '../../trees/document/index.ts';
import { evaluate } from '../../trees/plan/index.ts';
import {
  expectedMinutes,
  jobsOf,
  reviewOf,
  seededDraws,
  treeBranches,
  waysBy,
  withTrees,
  type Facts,
  type JobFact,
  type Review,
  type ReviewFilter,
} from '../../trees/review/index.ts';
import { binomialTest, holm } from '../../trees/statistics/index.ts';
import { arbitraryTree } from '../support/arbitrary-tree.ts';
import { factsOf } from '../support/facts-of.ts';
import { smallTree } from '../support/trees.ts';

const NOW = Date.UTC(2024, 7, 5);
const ALL: ReviewFilter = { from: null, to: null, tree: null, board: null, technician: null, window: 90 };

test('as many jobs came by a step and left by its branches as went there one by one, and they are the ones behind it', () => {
  let counted = 0;
  fc.assert(
    fc.property(arbitraryShop(), ({ tree, jobs }) => {
      const facts = factsOf(jobs);
      const { branches } = reviewWith(tree, facts, ALL);
      const gone = jobs.map((job) => new Set(goneAlong(tree, job)));
      for (const { symptom, step, result, passed, took } of branches) {
        const here = JSON.stringify([symptom, step, result]);
        const by = jobs.filter((_, place) => gone[place]?.has(here));
        const slice = { kind: 'branch', tree: tree.id, symptom, step, result } as const;
        const page = { before: null, limit: Infinity };
        const { places } = jobsOf(facts, ALL, NOW, slice, page, waysBy(tree, facts.ways, slice));
        expect(places).toEqual(by.map(({ place }) => place).sort((a, b) => b - a));
        expect(took).toBe(by.length);
        const ofStep = branches.filter((one) => one.symptom === symptom && one.step === step);
        expect(ofStep.reduce((sum, one) => sum + one.took, 0)).toBe(passed);
        counted += took;
      }
    }),
  );
  expect(counted).toBeGreaterThan(100);
});

test('chances are binomial and corrected for all branches that a job came by; those that differ come first', () => {
  fc.assert(
    fc.property(arbitraryShop(), ({ tree, jobs }) => {
      const { branches } = reviewWith(tree, factsOf(jobs), ALL);
      const tested = branches.filter(({ passed }) => passed > 0);
      const corrected = holm(tested.map(({ chance }) => chance));
      tested.forEach((branch, place) => {
        expect(branch.chance).toBeCloseTo(binomialTest(branch.took, branch.passed, seen(tree, branch)), 12);
        expect(branch.corrected).toBeCloseTo(corrected[place] ?? NaN, 12);
      });
      for (const { passed, chance, corrected: after, differs } of branches) {
        if (passed === 0) expect([chance, after]).toEqual([1, 1]);
        expect(differs).toBe(after < 0.05);
      }
      const ranks = branches.map(({ differs, chance }) => (differs ? 0 : 2) + chance);
      expect(ranks).toEqual(ranks.toSorted((a, b) => a - b));
    }),
  );
});

test('a branch that hundreds of jobs leave otherwise than its author thought differs, and one that they bear out does not', () => {
  const tree = smallTree();
  const { symptom, made, then } = firstStepOf(tree);
  const total = Object.values(then).reduce((sum, { weight }) => sum + weight, 0);
  const asAuthored = Object.entries(then).flatMap(([result, { weight }]) =>
    Array.from({ length: Math.round((300 * weight) / total) }, () => result),
  );
  const [rarest = ''] = Object.entries(then).sort(([, a], [, b]) => a.weight - b.weight)[0] ?? [];
  const differing = (results: readonly string[]): number => {
    const jobs = results.map((result, place) => aJob(tree, symptom, [{ test: made, result }], place));
    return reviewWith(tree, factsOf(jobs), ALL).branches.filter(({ differs }) => differs).length;
  };
  expect(differing(asAuthored)).toBe(0);
  expect(differing(asAuthored.map(() => rarest))).toBeGreaterThan(0);
});

test('one wrong reading at a branch that its author has nobody leave by is no news, and many are', () => {
  const tree = withoutReading(smallTree());
  const { symptom, made, then } = firstStepOf(tree);
  const [never = '', often = ''] = Object.keys(then);
  const differing = (wrong: number): readonly string[] => {
    const results = Array.from({ length: 20 }, (_, place) => (place < wrong ? never : often));
    const jobs = results.map((result, place) => aJob(tree, symptom, [{ test: made, result }], place));
    const { branches } = reviewWith(tree, factsOf(jobs), ALL);
    return branches.filter(({ differs }) => differs).map(({ result }) => result);
  };
  expect(differing(1)).toEqual([]);
  expect(differing(8)).toContain(never);
});

test('a symptom is expected to take what an evaluation of its path says at the bench, and what has no path nothing', () => {
  const tree = smallTree();
  const atBench = { ...tree, defaults: { ...tree.defaults, escalate: 0 } };
  const model = compileFaultModel(atBench, NO_HISTORY);
  for (const symptom of Object.keys(tree.symptoms)) {
    const minutes = (goal: 'isolate' | 'fix'): number =>
      evaluate({ model, symptom, goal, rate: null }).expectedMinutes;
    expect(expectedMinutes(tree, symptom)).toEqual({
      toFinding: minutes('isolate'),
      toProof: minutes('fix'),
    });
  }
  const [symptom = ''] = Object.keys(tree.symptoms);
  expect(expectedMinutes(tree, 'not-a-symptom')).toBeNull();
  const jobs = [aJob(tree, symptom, [], 0), aJob(tree, 'gone-since', [], 1)];
  const { minutes } = reviewWith(tree, factsOf(jobs), ALL);
  expect(minutes.find((one) => one.symptom === symptom)?.expected).toEqual(expectedMinutes(tree, symptom));
  expect(minutes.find((one) => one.symptom === 'gone-since')?.expected).toBeNull();
});

test('ways that came after others were walked count as if all were walked at once, and others in their stead do too', () => {
  let counted = 0;
  const countsOf = (tree: Tree, facts: Facts) =>
    reviewWith(tree, facts, ALL).branches.map(({ passed, took }) => [passed, took]);
  fc.assert(
    fc.property(arbitraryShop(), fc.nat(), ({ tree, jobs }, place) => {
      const facts = factsOf(jobs);
      const expected = countsOf({ ...tree }, facts);
      const few = { ...facts, ways: facts.ways.slice(0, 1 + (place % facts.ways.length)) };
      countsOf(tree, few);
      expect(countsOf(tree, facts)).toEqual(expected);
      countsOf(tree, { ...facts, ways: facts.ways.toReversed() });
      expect(countsOf(tree, facts)).toEqual(expected);
      counted += expected.flat().reduce((sum, count) => sum + count, 0);
    }),
    { numRuns: 30 },
  );
  expect(counted).toBeGreaterThan(100);
});

test('jobs of another tree, of no finding, or out of the filter do not count along a branch', () => {
  const tree = smallTree();
  const { symptom, first, made, then } = firstStepOf(tree);
  const answers = [{ test: made, result: Object.keys(then)[0] ?? '' }];
  const jobs = [
    aJob(tree, symptom, answers, 0),
    { ...aJob(tree, symptom, answers, 1), tree: 'another' },
    { ...aJob(tree, symptom, answers, 2), finding: null, outcome: 'declined' as const },
    { ...aJob(tree, symptom, answers, 3), technician: 'ben' },
  ];
  const { branches } = reviewWith(tree, factsOf(jobs), { ...ALL, technician: 'ada' });
  const took = branches.filter(({ step, symptom: of }) => step === first && of === symptom);
  expect(took.reduce((sum, branch) => sum + branch.took, 0)).toBe(1);
});

/** What is seen at a branch where its author is right: the share, but for the test's being wrong by any of its results. */
function seen({ tests, defaults }: Tree, { test: made, authored }: Review['branches'][number]): number {
  const { reliability = defaults.reliability, results = {} } = tests[made] ?? {};
  return reliability * authored + (1 - reliability) / Object.keys(results).length;
}

/** The tree with nobody leaving its first step by the first of the results there, and all by the next. */
function withoutReading(tree: Tree): Tree {
  const { symptom, first, then } = firstStepOf(tree);
  const { [symptom]: path } = tree.symptoms;
  const step = path?.steps[first];
  if (path === undefined || step === undefined) throw new Error('the tree has no first step');
  const weighed = Object.fromEntries(
    Object.entries(then).map(([result, branch], place) => [
      result,
      { ...branch, weight: place === 1 ? 1 : 0 },
    ]),
  );
  const steps = { ...path.steps, [first]: { ...step, then: weighed } };
  return { ...tree, symptoms: { ...tree.symptoms, [symptom]: { ...path, steps } } };
}

/** The step that the first symptom's path begins with. */
function firstStepOf(tree: Tree) {
  const [symptom = ''] = Object.keys(tree.symptoms);
  const { first = '', steps } = tree.symptoms[symptom] ?? {};
  const { test: made = '', then = {} } = steps?.[first] ?? {};
  return { symptom, first, made, then };
}

function reviewWith(tree: Tree, facts: Facts, filter: ReviewFilter): Review {
  const model = compileFaultModel(tree, NO_HISTORY);
  const branches = treeBranches(model, seededDraws(1));
  const symptoms = Object.keys(tree.symptoms).slice(0, 1);
  const expected = new Map(symptoms.map((symptom) => [symptom, expectedMinutes(tree, symptom)]));
  return withTrees(reviewOf(facts, filter, NOW), facts, [{ tree, branches, expected }]);
}

/** A tree and confirmed jobs on it that answered some of its tests. */
function arbitraryShop(): fc.Arbitrary<{ readonly tree: Tree; readonly jobs: readonly JobFact[] }> {
  return arbitraryTree().chain((tree) => {
    const symptom = fc.constantFrom(...Object.keys(tree.symptoms));
    const answers = fc
      .tuple(
        ...Object.entries(tree.tests).map(([id, { results }]) =>
          fc.option(
            fc.constantFrom(...Object.keys(results)).map((result) => ({ test: id, result })),
            { freq: 6 },
          ),
        ),
      )
      .map((all) => all.filter((answer) => answer !== null));
    const jobs = fc.array(fc.tuple(symptom, answers), { maxLength: 40 });
    return jobs.map((drawn) => ({
      tree,
      jobs: drawn.map(([from, given], place) => aJob(tree, from, given, place)),
    }));
  });
}

/** The branches that a job goes along, step by step. */
function goneAlong(tree: Tree, { symptom, answers }: JobFact): readonly string[] {
  const gone: string[] = [];
  let at: { readonly symptom: string; readonly step: string | undefined } | null = {
    symptom,
    step: tree.symptoms[symptom]?.first,
  };
  while (at?.step !== undefined) {
    const step: Tree['symptoms'][string]['steps'][string] | undefined =
      tree.symptoms[at.symptom]?.steps[at.step];
    const result = answers.find(({ test: made }) => made === step?.test)?.result;
    const branch = result === undefined ? undefined : step?.then[result];
    if (branch === undefined) break;
    gone.push(JSON.stringify([at.symptom, at.step, result]));
    const to = destination(branch.go, at.symptom);
    if (to.kind === 'finding') break;
    at = { symptom: to.symptom, step: to.kind === 'step' ? to.step : tree.symptoms[to.symptom]?.first };
  }
  return gone;
}

function aJob(tree: Tree, symptom: string, answers: JobFact['answers'], place: number): JobFact {
  const opened = Date.UTC(2024, 1, 1) + place * 60_000;
  return {
    place: opened * 1024,
    closedAt: opened + 60_000,
    tree: tree.id,
    symptom,
    board: '',
    technician: 'ada',
    outcome: 'fixed',
    finding: Object.keys(tree.findings)[0] ?? '',
    tried: Object.keys(tree.findings)[0] ?? '',
    failed: 0,
    backAt: null,
    toFinding: 20_000,
    toProof: 40_000,
    atBench: 60_000,
    tests: answers.length,
    parts: 0,
    advised: 0,
    answers,
    shown: [],
    confirmed: null,
  };
}
