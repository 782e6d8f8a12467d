import { describe, expect, it } from 'vitest';
import { compileFaultModel, NO_HISTORY } from '../../trees/belief/index.ts';
import { checkTree, type Tree } from '../../trees/document/index.ts';
import { withPath } from '../../trees/plan/carry-over.ts';
import { propose } from '../../trees/plan/index.ts';
import { pathOf } from '../../trees/plan/path.ts';
import type { Policy } from '../../trees/plan/policy.ts';
import { treeOf, type TreeDocument } from '../support/trees.ts';
import { threeFindings } from './three-findings.ts';

type TestPolicy = Extract<Policy, { kind: 'test' }>;

/** A plan of tests with two results each. */
function plan(test: string, good: Policy, bad: Policy, share = 0.5): TestPolicy {
  const branches = [
    { probability: share, then: good },
    { probability: 1 - share, then: bad },
  ];
  return { kind: 'test', test, branches };
}

function end(finding: string): Policy {
  return { kind: 'finding', finding };
}

function stepsOf(tree: Tree, symptom: string) {
  return Object.fromEntries(
    Object.entries(tree.symptoms[symptom]?.steps ?? {}).map(([id, { test, then }]) => [
      id,
      [test, ...Object.values(then).map(({ go }) => go)],
    ]),
  );
}

function errorsOf(tree: Tree): readonly string[] {
  return checkTree(tree).flatMap(({ severity, rule }) => (severity === 'error' ? [rule] : []));
}

/** Three findings, and a symptom `dim` with this path or none. */
function withDim(dim: Partial<TreeDocument['symptoms'][string]> = {}): TreeDocument {
  const document = threeFindings();
  document.symptoms['dim'] = { title: 'Dim', ...dim };
  return document;
}

function proposedFor(document: TreeDocument, symptom: string): ReturnType<typeof propose> {
  const model = compileFaultModel(treeOf(document), NO_HISTORY);
  return propose({ model, symptom, goal: 'fix', method: 'fast', rate: null });
}

describe('a plan written as a path', () => {
  it('has one step for parts that do the same, with the weights of all ways to it', () => {
    const document = threeFindings();
    document.tests['z'] = document.tests['x'] ?? fail();
    const same = () => plan('y', end('a'), end('b'), 0.25);
    const path = pathOf(treeOf(document), 'dead', plan('z', same(), plan('x', same(), end('b')), 0.2));
    expect(Object.keys(path?.steps ?? {})).toEqual(['z', 'second', 'first']);
    // 0.2 and 0.8 x 0.5 of the units come to `y`, a quarter of them to its first branch.
    expect(path?.steps['second']?.then).toEqual({
      good: { go: 'finding:a', weight: 150 },
      bad: { go: 'finding:b', weight: 450 },
    });
  });

  it('gives steps ids of at most 80 characters, each its own, though a test’s id is as long', () => {
    const long = `y${'-long'.repeat(15)}-end`.slice(0, 80);
    const text = JSON.stringify(threeFindings()).replaceAll('"y"', `"${long}"`);
    const tree = treeOf(JSON.parse(text) as TreeDocument);
    const policy = plan(
      'x',
      plan(long, end('a'), end('b')),
      plan(long, end('b'), plan(long, end('a'), end('c'))),
    );
    const path = pathOf(tree, 'dead', policy) ?? fail();
    expect(Object.keys(path.steps)).toHaveLength(4);
    expect(Math.max(...Object.keys(path.steps).map(({ length }) => length))).toBeGreaterThan(75);
    expect(errorsOf(withPath(tree, 'dead', path))).toEqual([]);
  });

  it('is nothing new where the plan is the former path, or makes no test', () => {
    const tree = treeOf(threeFindings());
    expect(pathOf(tree, 'dead', plan('x', plan('y', end('c'), end('b')), end('a')))).toBeNull();
    expect(pathOf(tree, 'dead', end('b'))).toBeNull();
  });

  it('leaves a step that another path goes on at as it is, and all that follows it', () => {
    const then = { good: { go: 'symptom:dead/first' }, bad: { go: 'finding:b' } };
    const { tree, changed } = proposedFor(withDim({ first: 's', steps: { s: { test: 'y', then } } }), 'dead');
    expect(changed).toBe(true);
    expect(stepsOf(tree, 'dead')).toEqual({
      y: ['y', 'x', 'finding:b'],
      x: ['x', 'finding:c', 'finding:a'],
      first: ['x', 'second', 'finding:a'],
      second: ['y', 'finding:c', 'finding:b'],
    });
  });
});

describe('a finding that goes on at a step of the job’s own path', () => {
  it('finds it in a new path too: the step is lent from the path that has it', () => {
    const document = withDim({ weights: { a: 1, b: 2, c: 1 } });
    document.findings['a'] = { ...(document.findings['a'] ?? fail()), otherwise: 'second' };
    const { tree } = proposedFor(document, 'dim');
    expect(errorsOf(tree)).toEqual([]);
    expect(stepsOf(tree, 'dim')['second']).toEqual(['y', 'finding:c', 'finding:b']);
    document.findings['a'] = { ...document.findings['a'], otherwise: 'first' };
    const lent = proposedFor(document, 'dim').tree;
    expect(errorsOf(lent)).toEqual([]);
    expect(stepsOf(lent, 'dim')['first']).toEqual(['x', 'symptom:dead/second', 'finding:a']);
  });

  it('does not come upon a new step that happens to have its id', () => {
    const text = JSON.stringify(withDim({ weights: { a: 1, b: 2, c: 1 } })).replaceAll('"second"', '"x"');
    const document = JSON.parse(text) as TreeDocument;
    document.findings['a'] = { ...(document.findings['a'] ?? fail()), otherwise: 'x' };
    const { tree } = proposedFor(document, 'dim');
    expect(errorsOf(tree)).toEqual([]);
    // The step `x` of the other path makes the test y.
    expect(stepsOf(tree, 'dim')['x']).toEqual(['y', 'finding:c', 'finding:b']);
    expect(stepsOf(tree, 'dim')['x-2']?.[0]).toBe('x');
  });

  it('keeps a path from being proposed that would bring another symptom to it, which lacks the step', () => {
    // The path of `dead` never comes to `c`; a better one does, and `c` goes on at a step that `dim` does not have.
    const document = threeFindings();
    const dead = document.symptoms['dead'] ?? fail();
    dead.steps = {
      first: { test: 'x', then: { good: { go: 'finding:b' }, bad: { go: 'finding:a' } } },
      again: { test: 'y', then: { good: { go: 'finding:a' }, bad: { go: 'finding:b' } } },
    };
    const { b = fail(), c = fail() } = document.findings;
    document.findings['b'] = { ...b, expects: { x: 'good', y: 'good' }, prove: ['y'] };
    document.findings['c'] = { ...c, expects: { x: 'good', y: 'bad' }, otherwise: 'again' };
    expect(errorsOf(proposedFor(document, 'dead').tree)).toEqual([]);
    expect(proposedFor(document, 'dead').changed).toBe(true);
    const then = { good: { go: 'finding:b' }, bad: { go: 'symptom:dead' } };
    document.symptoms['dim'] = { title: 'Dim', first: 's', steps: { s: { test: 'y', then } } };
    expect(errorsOf(treeOf(document))).toEqual([]);
    expect(proposedFor(document, 'dead').changed).toBe(false);
  });
});

it('a symptom that goes on in a path proposed anew keeps what its author expected of it, within 0.5 % of it', () => {
  const then = { good: { go: 'symptom:dead', weight: 2 }, bad: { go: 'finding:b', weight: 1 } };
  const document = withDim({ first: 's', steps: { s: { test: 'y', then } } });
  const { tree } = proposedFor(document, 'dead');
  const [before, after] = [treeOf(document), tree].map(
    (one) => compileFaultModel(one, NO_HISTORY).prior('dim').probability,
  );
  after?.forEach((probability, row) => {
    const was = before?.[row] ?? NaN;
    expect(Math.abs(probability - was)).toBeLessThanOrEqual(0.005 * was);
  });
  // A half of `dead` arrives at `a`, a quarter each at `c` and `b`, by its branches’ even weights.
  expect(tree.symptoms['dim']?.weights).toEqual({ a: 333, b: 500, c: 167 });
  expect(tree.symptoms['dim']?.steps).toEqual(treeOf(document).symptoms['dim']?.steps);
});

function fail(): never {
  throw new Error('three-findings has changed');
}
