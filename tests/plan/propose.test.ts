import { describe, expect, it } from 'vitest';
import { compileFaultModel, NO_HISTORY } from '../../trees/belief/index.ts';
import { checkTree, type Tree } from '../../trees/document/index.ts';
import { documentWith, propose, type Goal, type Proposal } from '../../trees/plan/index.ts';
import { simulateJobs } from '../support/simulate-jobs.ts';
import { treeOf, type TreeDocument } from '../support/trees.ts';
import { threeFindings } from './three-findings.ts';
import { twoFindings } from './two-findings.ts';

interface Asked {
  readonly symptom?: string;
  readonly goal?: Goal;
  readonly method?: 'exact' | 'fast';
  readonly isTimeUp?: () => boolean;
}

function proposed(document: TreeDocument, asked: Asked = {}): Proposal {
  const model = compileFaultModel(treeOf(document), NO_HISTORY);
  return propose({ model, symptom: 'dead', goal: 'isolate', method: 'fast', rate: null, ...asked });
}

function errorsOf(tree: Tree): readonly string[] {
  return checkTree(tree).flatMap(({ severity, rule, at }) => (severity === 'error' ? [`${rule} ${at}`] : []));
}

/** A path's tests and ways on, without its weights. */
function shapeOf({ symptoms }: Tree, symptom = 'dead') {
  const { first, steps = {} } = symptoms[symptom] ?? {};
  const shape = Object.entries(steps).map(([id, { test, then }]) => {
    const gos = Object.entries(then).map(([result, { go }]) => [result, go] as const);
    return [id, { test, ...Object.fromEntries(gos) }] as const;
  });
  return { first, steps: Object.fromEntries(shape) };
}

describe('two tests in the wrong order', () => {
  // x first: 2 minutes, and y for the 4 in 5 that are not `a`. y first: 3, and x for the 2 in 5 that are not `b`.
  const [before, after] = [2 + 0.8 * 3, 3 + 0.4 * 2];

  it('are swapped, under the ids they had', () => {
    const { tree, changed } = proposed(threeFindings());
    expect(changed).toBe(true);
    expect(errorsOf(tree)).toEqual([]);
    expect(shapeOf(tree)).toEqual({
      first: 'second',
      steps: {
        second: { test: 'y', good: 'first', bad: 'finding:b' },
        first: { test: 'x', good: 'finding:c', bad: 'finding:a' },
      },
    });
    expect(tree.symptoms['dead']?.steps['second']?.then).toMatchObject({
      good: { weight: 400 },
      bad: { weight: 600 },
    });
  });

  it.each(['fast', 'exact'] as const)('save what can be worked out by hand, to isolate, %s', (method) => {
    const found = proposed(threeFindings(), { method });
    expect(found.before?.expectedMinutes).toBeCloseTo(before, 12);
    expect(found.after.expectedMinutes).toBeCloseTo(after, 12);
    expect(found.moves).toEqual([
      {
        kind: 'test',
        id: 'x',
        saves: expect.closeTo(1.2, 9),
        made: [1, expect.closeTo(0.4, 9)],
        place: [1, 2],
      },
      {
        kind: 'test',
        id: 'y',
        saves: expect.closeTo(-0.6, 9),
        made: [expect.closeTo(0.8, 9), 1],
        place: [2, 1],
      },
    ]);
    expect(found.gap).toBe(method === 'exact' ? 0 : null);
  });

  it.each(['fast', 'exact'] as const)(
    'save as much to fix, where every remedy and proof is the same, %s',
    (method) => {
      const found = proposed(threeFindings(), { goal: 'fix', method });
      // Each remedy is 5 minutes, its proof x once more.
      expect(found.before?.expectedMinutes).toBeCloseTo(before + 5 + 2, 12);
      expect(found.after.expectedMinutes).toBeCloseTo(after + 5 + 2, 12);
      expect(found.moves.reduce((sum, { saves }) => sum + saves, 0)).toBeCloseTo(0.6, 9);
      expect(found.after.rightFinding).toBeCloseTo(1, 12);
    },
  );

  it.each<Goal>(['isolate', 'fix'])('once swapped are left as they are, to %s', (goal) => {
    const better = documentWith(threeFindings(), proposed(threeFindings(), { goal }).tree, 'dead');
    for (const method of ['fast', 'exact'] as const) {
      const again = proposed(better, { goal, method });
      expect(again).toMatchObject({ changed: false, moves: [] });
      expect(again.after).toBe(again.before);
      expect(documentWith(better, again.tree, 'dead')).toEqual(better);
    }
  });

  it('are swapped in the document as it was written, with what the path said written out', () => {
    const written = threeFindings();
    const document = documentWith(written, proposed(written).tree, 'dead');
    expect(treeOf(document)).toEqual(proposed(written).tree);
    expect(document).toEqual({
      ...written,
      symptoms: { dead: { ...written.symptoms['dead'], first: 'second', steps: expect.anything() } },
    });
  });
});

describe('a symptom without a path', () => {
  function withoutPath(): TreeDocument {
    const document = twoFindings();
    return { ...document, symptoms: { dead: { title: 'Dead', weights: { part: 3, joint: 1 } } } };
  }

  it.each([
    ['isolate', 'fast'],
    ['isolate', 'exact'],
    ['fix', 'fast'],
    ['fix', 'exact'],
  ] as const)('gets one that every job can be walked by to a finding, to %s, %s', (goal, method) => {
    const { tree, before, changed, moves } = proposed(withoutPath(), { goal, method });
    expect({ before, changed, moves }).toEqual({ before: null, changed: true, moves: [] });
    expect(errorsOf(tree)).toEqual([]);
    const model = compileFaultModel(tree, NO_HISTORY);
    const walked = simulateJobs({ model, symptom: 'dead', goal: 'isolate', rate: null, jobs: 200, seed: 7 });
    expect(walked.passedOn).toBe(0);
    expect(walked.meanTests).toBeGreaterThanOrEqual(1);
  });

  it('gets the one test that settles it', () => {
    // Volts, with the power on: 1 + 3 minutes.
    const { tree, after } = proposed(withoutPath());
    expect(after).toMatchObject({ expectedMinutes: 4, rightFinding: 1 });
    expect(shapeOf(tree)).toEqual({
      first: 'volts',
      steps: { volts: { test: 'volts', there: 'finding:joint', none: 'finding:part' } },
    });
  });

  it('begins with a test though its finding is settled, as a path cannot but begin with one', () => {
    const document = withoutPath();
    document.symptoms = { dead: { title: 'Dead', weights: { part: 99, joint: 1 } } };
    for (const goal of ['isolate', 'fix'] as const) {
      const { tree, changed } = proposed(document, { goal });
      expect(changed).toBe(true);
      expect(errorsOf(tree)).toEqual([]);
      const step = Object.values(tree.symptoms['dead']?.steps ?? {})[0];
      expect(Object.values(step?.then ?? {}).map(({ go }) => go)).toContain('finding:part');
    }
  });

  it('stays without one where no test can be made', () => {
    const document = withoutPath();
    document.tests = { volts: document.tests['volts'] ?? fail() };
    const { part, joint } = document.findings;
    document.findings = {
      part: { ...(part ?? fail()), expects: {} },
      joint: { ...(joint ?? fail()), expects: {}, prove: [] },
    };
    document.interlocks = [
      { change: { power: 'on' }, until: { volts: ['there'] }, because: 'It never opens.' },
    ];
    const { tree, changed, after } = proposed(document, { goal: 'fix' });
    expect({ changed, first: tree.symptoms['dead']?.first }).toEqual({ changed: false, first: undefined });
    expect(after.expectedMinutes).toBe(60);
  });

  function fail(): never {
    throw new Error('two-findings has changed');
  }
});

describe('a proposed path', () => {
  it('has a branch for a result that no unit gives', () => {
    const document = threeFindings();
    const results = document.tests['y']?.results;
    if (results !== undefined) results['odd'] = { title: 'odd' };
    const step = document.symptoms['dead']?.steps?.['second'];
    if (step !== undefined) step.then['odd'] = { go: 'finding:c' };
    for (const method of ['fast', 'exact'] as const) {
      const { tree, changed } = proposed(document, { method });
      expect(changed).toBe(true);
      expect(errorsOf(tree)).toEqual([]);
      const { first = '', steps = {} } = tree.symptoms['dead'] ?? {};
      expect(Object.keys(steps[first]?.then ?? {})).toEqual(['good', 'bad', 'odd']);
    }
  });

  it('comes out the same whatever its test, finding, step and symptom are called, `constructor` too', () => {
    const plain = proposed(threeFindings()).after;
    for (const id of ['x', 'y', 'a', 'b', 'c', 'first', 'second', 'dead']) {
      const text = JSON.stringify(threeFindings());
      const called = text
        .replaceAll(`"${id}":`, '"constructor":')
        .replaceAll(`:"${id}"`, ':"constructor"')
        .replaceAll(`["${id}"]`, '["constructor"]')
        .replaceAll(`finding:${id}"`, 'finding:constructor"')
        .replaceAll('"constructor":"second","weights"', '"first":"second","weights"')
        .replaceAll('"constructor":"constructor","weights"', '"first":"constructor","weights"')
        .replaceAll('"constructor":"first","weights"', '"first":"first","weights"');
      const document = JSON.parse(called) as TreeDocument;
      expect(errorsOf(treeOf(document)), id).toEqual([]);
      const { tree, after } = proposed(document, { symptom: id === 'dead' ? 'constructor' : 'dead' });
      expect(errorsOf(tree), id).toEqual([]);
      expect(after.expectedMinutes, id).toBeCloseTo(plain.expectedMinutes, 12);
      expect(after.rightFinding, id).toBe(1);
    }
  });

  it('is sound though the exact search has no time at all', () => {
    const { tree, after, before, gap } = proposed(threeFindings(), { method: 'exact', isTimeUp: () => true });
    expect(errorsOf(tree)).toEqual([]);
    expect(after.expectedMinutes).toBeLessThanOrEqual(before?.expectedMinutes ?? 0);
    expect(gap).toBeGreaterThanOrEqual(0);
  });
});

it('throws where the tree has no such symptom', () => {
  expect(() => proposed(threeFindings(), { symptom: 'constructor' })).toThrow('unknown-symptom');
});
