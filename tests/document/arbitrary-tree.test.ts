import { expect, it } from 'vitest';
import fc from 'fast-check';
import { checkTree, readAndCheck } from '../../trees/document/index.ts';
import { arbitraryDocument, arbitraryTree } from '../support/arbitrary-tree.ts';

it('trees drawn for property tests have no errors', () => {
  fc.assert(
    fc.property(arbitraryTree(), (tree) => {
      expect(checkTree(tree).filter(({ severity }) => severity === 'error')).toEqual([]);
    }),
    { numRuns: 500 },
  );
});

it('a drawn document read from its file is the tree that was drawn', () => {
  fc.assert(
    fc.property(arbitraryDocument(), (document) => {
      const { tree, errors } = readAndCheck(new TextEncoder().encode(JSON.stringify(document)));
      expect(errors).toEqual([]);
      expect(tree).toMatchObject(document);
    }),
  );
});

it('drawn trees have interlocks, ratio bands, crossings of paths and symptoms without a path among them', () => {
  const documents = fc
    .sample(arbitraryDocument(), { numRuns: 200, seed: 20 })
    .map((document) => JSON.stringify(document));
  for (const sign of ['"until":{', '"of":"', '"go":"symptom:', '"constructor":{"title"', '"otherwise":']) {
    expect(
      documents.some((text) => text.includes(sign)),
      sign,
    ).toBe(true);
  }
});
