import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { compileFaultModel, NO_HISTORY } from '../../trees/belief/index.ts';
import { firstSituation } from '../../trees/chart/index.ts';
import { readAndCheck, type Tree } from '../../trees/document/index.ts';
import { evaluate, propose, type Goal } from '../../trees/plan/index.ts';
import { formerPath, spotOf, type Spot } from '../../trees/plan/former-path.ts';
import { improver } from '../../trees/plan/improve.ts';
import { planFor, type Policy } from '../../trees/plan/policy.ts';
import { startPosition } from '../../trees/plan/position.ts';
import { problemOf, type Problem } from '../../trees/plan/problem.ts';
import { unplanned } from '../../trees/plan/unplanned.ts';
import { arbitraryTree } from '../support/arbitrary-tree.ts';
import { treeOf } from '../support/trees.ts';
import { threeFindings } from './three-findings.ts';

function problemFor(tree: Tree, symptom: string, goal: Goal): Problem {
  const model = compileFaultModel(tree, NO_HISTORY);
  const { job, bench } = firstSituation(tree, symptom);
  return problemOf({ model, goal, job, bench, rate: 40 }, goal === 'fix');
}

/** Every place that the former path leads to by a result of a test, from any step that can be come to. */
function placesAfter(tree: Tree, first: Spot, test: string, result: string): readonly Spot[] {
  const places: Spot[] = [];
  const passed = new Set<string>();
  const visit = (spot: Spot): void => {
    const step = spot.kind === 'step' ? tree.symptoms[spot.symptom]?.steps[spot.step] : undefined;
    if (spot.kind !== 'step' || step === undefined || passed.has(JSON.stringify(spot))) return;
    passed.add(JSON.stringify(spot));
    for (const [one, { go }] of Object.entries(step.then)) {
      const place = spotOf(tree, go, spot.symptom);
      if (step.test === test && one === result) places.push(place);
      visit(place);
    }
  };
  visit(first);
  return places;
}

interface Unlikely {
  readonly test: string;
  readonly result: string;
  readonly then: Policy;
  readonly results: ReadonlyMap<string, string>;
}

/** The branches of a policy that fewer units than a share come to, with the results on the way there. */
function unlikely({ tree }: Problem, policy: Policy, leastShare: number): readonly Unlikely[] {
  const found: Unlikely[] = [];
  const visit = (part: Policy, share: number, before: ReadonlyMap<string, string>): void => {
    if (part.kind !== 'test') return;
    const ids = Object.keys(tree.tests[part.test]?.results ?? {});
    part.branches.forEach(({ probability, then }, at) => {
      const result = ids[at] ?? '';
      const results = new Map([...before, [part.test, result]]);
      if (share * probability < leastShare * (1 - 1e-9))
        found.push({ test: part.test, result, then, results });
      visit(then, share * probability, results);
    });
  };
  visit(policy, 1, new Map());
  return found;
}

/** Goes past the steps whose tests have a result. */
function past(tree: Tree, from: Spot, results: ReadonlyMap<string, string>): Spot {
  let spot = from;
  while (spot.kind === 'step') {
    const step = tree.symptoms[spot.symptom]?.steps[spot.step];
    const go = step?.then[results.get(step.test) ?? '']?.go;
    if (go === undefined) return spot;
    spot = spotOf(tree, go, spot.symptom);
  }
  return spot;
}

function placeOf(policy: Policy): unknown {
  return policy.kind === 'former' ? policy.spot : policy;
}

const goals = fc.constantFrom<Goal>('isolate', 'fix');
const LEAST = 0.05;

describe('a result that is too rare to be planned for', () => {
  it('leads in a path planned from nothing where the former path led for it, if that made the test', () => {
    let kept = 0;
    fc.assert(
      fc.property(arbitraryTree(), goals, (tree, goal) => {
        const problem = problemFor(tree, 'symptom-0', goal);
        const { first } = formerPath(problem);
        const policy = planFor(problem, 'fast', () => false).policy(LEAST);
        for (const { test, result, then, results } of unlikely(problem, policy, LEAST)) {
          const places = placesAfter(tree, first, test, result);
          if (places.length === 0) {
            expect(then.kind).toBe('finding');
            continue;
          }
          kept += 1;
          expect(places.map((place) => past(tree, place, results))).toContainEqual(placeOf(then));
        }
      }),
      { numRuns: 150 },
    );
    expect(kept).toBeGreaterThan(50);
  }, 60_000);

  it('leads in a bettered path where the former path led for it, or on from where that stands', () => {
    const counts = { led: 0, on: 0 };
    fc.assert(
      fc.property(arbitraryTree(), goals, (tree, goal) => {
        const problem = problemFor(tree, 'symptom-0', goal);
        const { first } = formerPath(problem);
        for (const { test, result, then, results } of unlikely(problem, improver(problem)(LEAST), LEAST)) {
          const places = placesAfter(tree, first, test, result).map((place) => past(tree, place, results));
          const isLed = places.some((place) => JSON.stringify(place) === JSON.stringify(placeOf(then)));
          counts[isLed ? 'led' : 'on'] += 1;
          if (!isLed) expect(placeOf(then)).toEqual(past(tree, first, results));
        }
      }),
      { numRuns: 150 },
    );
    expect(counts.led).toBeGreaterThan(50);
  }, 60_000);
});

describe('where the former path has a test more than once', () => {
  /** `x`, and `y` after either of its results; `odd`, which `y` never shows, leads to `b` after good and to `c` after bad. */
  function twice(): Tree {
    const document = threeFindings();
    const { y } = document.tests;
    if (y !== undefined) y.results['odd'] = { title: 'odd' };
    const then = (odd: string) => ({
      good: { go: 'finding:c' },
      bad: { go: 'finding:b' },
      odd: { go: `finding:${odd}` },
    });
    const dead = document.symptoms['dead'];
    if (dead !== undefined)
      dead.steps = {
        first: { test: 'x', then: { good: { go: 'sound' }, bad: { go: 'hurt' } } },
        sound: { test: 'y', then: then('b') },
        hurt: { test: 'y', then: then('c') },
      };
    return treeOf(document);
  }

  it.each([
    ['good', 1, 'b'],
    ['bad', 2, 'c'],
    ['no result', 0, 'b'],
  ])('a result leads where it led after the same results: after %s', (_, mark, finding) => {
    const problem = problemFor(twice(), 'dead', 'isolate');
    const { kept } = unplanned(problem, formerPath(problem));
    const start = startPosition(problem);
    const marks = start.marks.slice();
    marks[0] = mark;
    const found = kept({ ...start, marks }, 1, 2);
    expect(found).toEqual({ policy: { kind: 'finding', finding }, agrees: true });
  });

  it('a result of a test that the path never makes is not led anywhere, and ends at the finding that expects it most', () => {
    const document = threeFindings();
    const { x } = document.tests;
    if (x !== undefined) document.tests['z'] = x;
    for (const [id, finding] of Object.entries(document.findings))
      finding.expects = { ...finding.expects, z: id === 'a' ? 'bad' : 'good' };
    const problem = problemFor(treeOf(document), 'dead', 'isolate');
    const { kept, expecting } = unplanned(problem, formerPath(problem));
    // `b` is three times as likely as `a` before the test.
    expect(kept(startPosition(problem), 2, 1)).toBeNull();
    expect(expecting(startPosition(problem), 2, 1)).toEqual({ kind: 'finding', finding: 'a' });
  });
});

describe('what is proposed for the shipped tree’s dark screen', () => {
  const bytes = readFileSync(new URL('../../trees/library/kw1-panel.tree.json', import.meta.url));
  const tree = readAndCheck(bytes).tree;
  if (tree === null) throw new Error('kw1-panel has errors');
  const model = compileFaultModel(tree, NO_HISTORY);
  const question = { model, symptom: 'dark-screen', goal: 'fix', rate: 40 } as const;
  const { tree: proposed, changed, before, after } = propose({ ...question, method: 'fast' });
  const goesOf = (one: Tree, step: string) =>
    Object.fromEntries(
      Object.entries(one.symptoms['dark-screen']?.steps[step]?.then ?? {}).map(([result, { go }]) => [
        result,
        go,
      ]),
    );

  it('leads a supply that is no dark screen’s, and a current, where the tree leads them', () => {
    expect(changed).toBe(true);
    for (const [step, results] of [
      ['k-supply', ['open', 'low', 'short']],
      ['k-current', ['none', 'high']],
    ] as const) {
      const [was, is] = [goesOf(tree, step), goesOf(proposed, step)];
      for (const result of results) {
        expect(was[result], `${step} ${result}`).toMatch(/^symptom:no-power-led\//);
        expect(is[result], `${step} ${result}`).toBe(was[result]);
      }
    }
  });

  it('never ends at the dimmer wheel once it was turned and the screen stayed dark', () => {
    const ends = new Set<string>();
    const visit = (step: string, isTurned: boolean): void => {
      const { test, then } = proposed.symptoms['dark-screen']?.steps[step] ?? { test: '', then: {} };
      for (const [result, { go }] of Object.entries(then)) {
        const isNow = isTurned || (test === 'dimmer-turn' && result === 'stays-dark');
        if (isNow && go.startsWith('finding:')) ends.add(go);
        else visit(go, isNow);
      }
    };
    visit(proposed.symptoms['dark-screen']?.first ?? '', false);
    expect(ends.size).toBeGreaterThan(5);
    expect(ends).not.toContain('finding:dimmer-at-minimum');
  });

  it('costs what the path that is written down costs, and fewer minutes than before', () => {
    expect(after).toEqual(evaluate({ ...question, tree: proposed }));
    expect(after.expectedMinutes).toBeLessThan(before?.expectedMinutes ?? 0);
  });
});
