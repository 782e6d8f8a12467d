import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  byPaths,
  changesToSaying,
  sayingOf,
  testsKnown,
  totalOf,
  wholePerCents,
  type Saying,
} from '../../app/editor/form/finding/expected.ts';
import { onwardLines, onwardOf } from '../../app/editor/form/finding/otherwise.ts';
import { checkTree, flows, own, type Tree } from '../../trees/document/index.ts';
import { applyChanges, liveTree, type DraftDocument } from '../../trees/edit/index.ts';
import { smallDocument, smallTree } from '../support/trees.ts';

const authored = (): DraftDocument => JSON.parse(JSON.stringify(smallDocument())) as DraftDocument;

function said(finding: string, test: string, saying: Saying, document = authored()): Tree {
  const { tree } = liveTree(document);
  const made = applyChanges(
    document,
    changesToSaying(document, tree, flows(tree), { finding, test }, saying),
  );
  if (!made.ok) throw new Error(made.message);
  return liveTree(made.document).tree;
}

describe('what a finding makes a test give', () => {
  it('is as the paths say, one result, or shares', () => {
    const { findings } = smallTree();
    const loose = own(findings, 'ribbon-loose');
    const low = own(findings, 'converter-low');
    if (loose === undefined || low === undefined) throw new Error('not in the tree');
    expect(sayingOf(loose, 'border')).toBe('shares');
    expect(sayingOf(low, 'rail-in')).toBe('result:low');
    expect(sayingOf(low, 'tone')).toBe('paths');
  });

  it('is listed for the tests that the finding names and for those its paths pass, in the tree’s order', () => {
    const tree = smallTree();
    // It expects of the rail; its path passes the supply test and ends at the rail.
    expect(testsKnown(tree, flows(tree), 'converter-low')).toEqual(['supply-resistance', 'rail-in']);
  });

  it('by the paths alone leaves out what the finding says', () => {
    const tree = smallTree();
    expect(byPaths(tree, flows(tree), 'ribbon-loose', 'border')).toEqual({ known: true, shares: [0, 1, 0] });
    expect(byPaths(tree, flows(tree), 'ribbon-loose', 'tone').known).toBe(false);
  });

  it('begins as shares with what was held till then, and without those that are nothing', () => {
    expect(said('converter-low', 'rail-in', 'shares').findings['converter-low']?.expects['rail-in']).toEqual({
      low: 1,
    });
    expect(said('converter-low', 'border', 'shares').findings['converter-low']?.expects['border']).toEqual({
      whole: 0.34,
      partial: 0.33,
      none: 0.33,
    });
  });

  it('in whatever way it is said leaves the shape of the tree sound', () => {
    const tree = smallTree();
    for (const saying of ['paths', 'shares', 'result:none'] as const) {
      const problems = checkTree(said('converter-low', 'border', saying)).filter(
        ({ severity }) => severity === 'error',
      );
      expect(problems).toEqual([]);
    }
    expect(said('converter-low', 'rail-in', 'paths').findings['converter-low']?.expects).toEqual({});
    expect(Object.keys(tree.findings)).toContain('converter-low');
  });

  it('in whole per cents still makes up the whole, each within one per cent of what it was (to 1e-9)', () => {
    const weights = fc.array(fc.integer({ min: 0, max: 1000 }), { minLength: 1, maxLength: 8 });
    fc.assert(
      fc.property(weights, (drawn) => {
        const total = drawn.reduce((sum, weight) => sum + weight, 0);
        fc.pre(total > 0);
        const shares = drawn.map((weight) => weight / total);
        const whole = wholePerCents(shares);
        expect(Math.abs(whole.reduce((sum, share) => sum + share, 0) - 1)).toBeLessThan(1e-9);
        whole.forEach((share, index) => {
          expect(Math.abs(share - (shares[index] ?? 0))).toBeLessThan(0.01 + 1e-9);
          expect(Number.isInteger(Number((share * 100).toFixed(9)))).toBe(true);
        });
      }),
    );
  });

  it('comes to a total only where it is shares', () => {
    expect(totalOf({ whole: 0.5, none: 0.25 })).toBe(0.75);
    expect(totalOf('whole')).toBeNull();
    expect(totalOf(undefined)).toBeNull();
  });
});

describe('where a job goes on after a remedy that did not mend the unit', () => {
  it('is told with its path, a bare step once for every path that has it', () => {
    const tree = smallTree();
    expect(onwardOf(tree, 'symptom:dark-screen/look-again')).toEqual([
      { at: '/symptoms/dark-screen/steps/look-again', words: expect.stringContaining('Dark screen') },
    ]);
    expect(onwardOf(tree, 'look')).toEqual([
      { at: '/symptoms/dark-screen/steps/look', words: 'step 4, Picture of Dark screen' },
    ]);
    expect(onwardOf(tree, 'gone')).toEqual([{ at: null, words: 'step gone, which no path has' }]);
    expect(onwardOf(tree, 'finding:panel-dead')).toEqual([
      { at: '/findings/panel-dead', words: 'finding Panel dead' },
    ]);
  });

  it('can be any other finding, any path, and any step of one', () => {
    const lines = onwardLines(smallTree(), 'panel-dead').map(({ id }) => id);
    expect(lines).not.toContain('finding:panel-dead');
    expect(lines).toContain('finding:ribbon-loose');
    expect(lines).toContain('symptom:no-sound');
    expect(lines).toContain('symptom:no-sound/listen');
    expect(lines).toHaveLength(7 + 6 + 2);
  });
});
