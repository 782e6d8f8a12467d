import fc from 'fast-check';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { defaultAccuracy, NO_HISTORY } from '../../trees/belief/index.ts';
import { arbitraryDocument } from '../support/arbitrary-tree.ts';
import { referenceBelief, referenceBranches, type ReferenceAnswer } from '../support/reference-belief.ts';
import { smallDocument, treeOf } from '../support/trees.ts';
import { run, scratch, written } from './command-line.ts';

interface Shown {
  readonly findings: readonly { readonly id: string; readonly probability: number; readonly jobs: number }[];
  readonly steps: readonly {
    readonly step: string;
    readonly test: string;
    readonly branches: readonly {
      readonly result: string;
      readonly probability: number;
      readonly jobs: number;
    }[];
  }[];
}

const folder = scratch();
const small = written(folder, 'small.tree.json', smallDocument());
const tree = treeOf(smallDocument());

async function believe(...argv: readonly string[]): Promise<Shown> {
  const { status, json, text } = await run('belief', small, '--symptom', 'dark-screen', ...argv);
  expect(status, text).toBe(0);
  return json as Shown;
}

function compare(shown: Shown, answers: readonly ReferenceAnswer[]): void {
  const expected = referenceBelief(tree, NO_HISTORY, 'dark-screen', answers, []);
  expect(shown.findings).toHaveLength(expected.size);
  for (const { id, probability } of shown.findings)
    expect(probability).toBeCloseTo(expected.get(id) ?? NaN, 9);
  for (const { test, branches } of shown.steps) {
    const likely = referenceBranches(tree, NO_HISTORY, expected, test);
    for (const { result, probability } of branches)
      expect(probability).toBeCloseTo(likely.get(result) ?? NaN, 9);
  }
}

describe('belief', () => {
  it('gives the prior and every step’s branch likelihoods where nothing is given, to 1e-9 of the formulas', async () => {
    const shown = await believe();
    compare(shown, []);
    expect(shown.steps.map(({ step }) => step)).toEqual([
      'short',
      'supply',
      'far',
      'look',
      'symptom:no-sound/listen',
    ]);
  });

  it('takes a result or a reading, and leaves the made test’s step out', async () => {
    const shown = await believe('--given', 'supply-resistance=clear', '--given', 'rail-in=4V76');
    compare(shown, [
      { test: 'supply-resistance', result: 'clear' },
      { test: 'rail-in', value: 4.76, accuracy: defaultAccuracy('dc-volts') },
    ]);
    expect(shown.steps.map(({ test }) => test)).toEqual(['rail-far', 'border', 'tone']);
  });

  it('takes a ratio to an earlier reading in either order', async () => {
    const rail = ['--given', 'rail-in=5.02'];
    const far = ['--given', 'rail-far=4.70'];
    const shown = await believe(...far, ...rail);
    expect(await believe(...rail, ...far)).toEqual({
      ...shown,
      findings: expect.anything(),
      steps: expect.anything(),
    });
    compare(shown, [
      { test: 'rail-in', value: 5.02, accuracy: defaultAccuracy('dc-volts') },
      { test: 'rail-far', value: 4.7, accuracy: defaultAccuracy('dc-volts'), reference: 5.02 },
    ]);
  });

  it('equals the formulas on any sound tree, and its probabilities sum to one', async () => {
    await fc.assert(
      fc.asyncProperty(arbitraryDocument(), async (document) => {
        const drawn = treeOf(document);
        const [symptom = ''] = Object.keys(drawn.symptoms);
        const file = written(folder, 'drawn.tree.json', document);
        const { json } = await run('belief', file, '--symptom', symptom);
        const { findings } = json as Shown;
        const expected = referenceBelief(drawn, NO_HISTORY, symptom, [], []);
        for (const { id, probability } of findings)
          expect(probability).toBeCloseTo(expected.get(id) ?? NaN, 9);
        expect(findings.reduce((sum, { probability }) => sum + probability, 0)).toBeCloseTo(1, 9);
      }),
      { numRuns: 50 },
    );
  });

  it.each([
    [['--given', 'rail-in'], 'not understood'],
    [['--given', 'nobody=good'], 'no test "nobody"'],
    [['--given', 'border=sideways'], 'no result "sideways"'],
    [['--given', 'rail-in=4k7 ohm'], 'rail-in=4k7 ohm'],
    [['--given', 'rail-in=good', '--given', 'rail-in=low'], 'twice'],
    [['--given', 'rail-far=4.7'], 'rail-in'],
    [['--given', 'rail-far=4.7', '--given', 'rail-in=good'], 'rail-in'],
    [['--db', join(folder, 'no-shop.sqlite')], 'no database'],
  ])('refuses %j, saying what is wrong with it, with status 2', async (argv, named) => {
    const { status, text } = await run('belief', small, '--symptom', 'dark-screen', ...argv);
    expect(text).toContain(named);
    expect(status).toBe(2);
  });

  it('refuses a symptom that the tree does not have and names those it has', async () => {
    const { status, text } = await run('belief', small, '--symptom', 'on-fire');
    expect(text).toContain('dark-screen');
    expect(status).toBe(2);
  });

  it('lists what is wrong with a document that cannot be walked, with status 1', async () => {
    const document = smallDocument();
    const broken = written(folder, 'broken.tree.json', { ...document, findings: {} });
    const { status, json } = await run('belief', broken, '--symptom', 'dark-screen');
    expect((json as { files: { errors: unknown[] }[] }).files[0]?.errors.length).toBeGreaterThan(0);
    expect(status).toBe(1);
  });
});
