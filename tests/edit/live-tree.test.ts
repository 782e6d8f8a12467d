import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { treeSchema } from '../../trees/document/index.ts';
import { applyChanges, liveTree, type DraftDocument } from '../../trees/edit/index.ts';
import { arbitraryTree } from '../support/arbitrary-tree.ts';
import { smallDocument } from '../support/trees.ts';

const small = (): DraftDocument => smallDocument() as unknown as DraftDocument;

function changed(document: DraftDocument, path: readonly (string | number)[], value: string | number) {
  const applied = applyChanges(document, [{ do: 'set', path: [...path], value }]);
  if (!applied.ok) throw new Error(applied.message);
  return applied.document;
}

describe('a draft’s live tree', () => {
  it('is the tree that the whole document is read as', () => {
    const { tree, blanks } = liveTree(small());
    expect(blanks).toEqual([]);
    expect(tree).toEqual(treeSchema.parse(smallDocument()));
    expect(Object.getPrototypeOf(tree.tests)).toBeNull();
  });

  it('is so for trees of any kind', () => {
    fc.assert(
      fc.property(arbitraryTree(), (tree) => {
        const document = JSON.parse(JSON.stringify(tree)) as DraftDocument;
        expect(liveTree(document).tree).toEqual(tree);
      }),
      { numRuns: 100 },
    );
  });

  it('keeps the parts that an edit has not touched as the same objects', () => {
    const document = small();
    const before = liveTree(document).tree;
    const after = liveTree(changed(document, ['tests', 'tone', 'minutes'], 9)).tree;
    expect(after.tests.tone?.minutes).toBe(9);
    expect(after.findings).toBe(before.findings);
    expect(after.symptoms).toBe(before.symptoms);
    expect(after.interlocks).toBe(before.interlocks);
    expect(after.bench).toBe(before.bench);
    expect(after.tests['supply-resistance']).toBe(before.tests['supply-resistance']);
  });

  it('says which texts are still blank, and reckons on with the rest', () => {
    const blank = changed(small(), ['tests', 'tone', 'title'], '');
    const { tree, blanks } = liveTree(blank);
    expect(blanks.map(({ at, rule, severity }) => ({ at, rule, severity }))).toEqual([
      { at: '/tests/tone/title', rule: 'empty-text', severity: 'error' },
    ]);
    expect(tree.tests.tone?.title).toBe('…');
    expect(tree.tests.tone?.minutes).toBe(smallDocument().tests.tone?.minutes);
  });

  it('leaves out what has not the shape of its part, and says so', () => {
    const { tree, blanks } = liveTree(changed(small(), ['tests', 'tone'], 7));
    expect(tree.tests.tone).toBeUndefined();
    expect(blanks.map(({ at }) => at)).toEqual(['/tests/tone']);
    const deep = liveTree(changed(small(), ['symptoms', 'no-sound', 'title'], ''));
    expect(deep.blanks.map(({ at }) => at)).toEqual(['/symptoms/no-sound/title']);
  });
});
