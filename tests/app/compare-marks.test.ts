import { expect, it } from 'vitest';
import fc from 'fast-check';
import { countWords, groupsOf } from '../../app/editor/compare/groups.ts';
import { marksOf, unionOf } from '../../app/editor/compare/marks.ts';
import { pathOf, valueAt, type JsonObject } from '../../trees/document/index.ts';
import { liveTree, tellDifferences } from '../../trees/edit/index.ts';
import { findingOf, mustHave, stepOf, symptomOf, testOf } from '../document/parts.ts';
import { arbitraryDocument } from '../support/arbitrary-tree.ts';
import { smallDocument, type TreeDocument } from '../support/trees.ts';

function made(edit: (document: TreeDocument) => void = () => undefined): JsonObject {
  const document = smallDocument();
  edit(document);
  return JSON.parse(JSON.stringify(document)) as JsonObject;
}

function marks(edit: (document: TreeDocument) => void) {
  const [before, after] = [made(), made(edit)];
  return Object.fromEntries(marksOf(tellDifferences(before, after), unionOf(before, after)));
}

it('a step that is gone is marked where it was, and stands in the drawing again', () => {
  const gone = (document: TreeDocument) => delete symptomOf(document, 'dark-screen').steps?.['look-again'];
  const at = '/symptoms/dark-screen/steps/look-again';
  expect(marks(gone)).toEqual({ [at]: 'removed' });
  expect(valueAt(unionOf(made(), made(gone)), pathOf(at))).toEqual(
    stepOf(smallDocument(), 'dark-screen', 'look-again'),
  );
});

it('the steps of a new symptom are new, and a step whose test has changed is changed', () => {
  expect(
    marks((document) => {
      document.symptoms['dim'] = structuredClone(symptomOf(document, 'no-sound'));
      testOf(document, 'border').minutes = 9;
    }),
  ).toEqual({
    '/tests/border': 'changed',
    '/symptoms/dim': 'added',
    '/symptoms/dim/steps/listen': 'added',
    '/symptoms/dark-screen/steps/look': 'changed',
  });
});

it('a branch that leads elsewhere is marked by itself, and so is one that is gone', () => {
  const step = '/symptoms/dark-screen/steps/look';
  expect(
    marks((document) => {
      const { then } = stepOf(document, 'dark-screen', 'look');
      mustHave(then['none']).go = 'finding:joint-open';
      delete then['whole'];
    }),
  ).toEqual({ [step]: 'changed', [`${step}/then/none`]: 'changed', [`${step}/then/whole`]: 'removed' });
});

it('a part that only stands elsewhere is not marked', () => {
  const told = marks((document) => {
    const { border, ...others } = document.tests;
    document.tests = { border: mustHave(border), ...others };
  });
  expect(told).toEqual({});
});

it('two documents laid over each other hold every part of both, and what both have as the latter has it', () => {
  fc.assert(
    fc.property(arbitraryDocument(), arbitraryDocument(), (one, other) => {
      const [before, after] = [one, other].map((each) => JSON.parse(JSON.stringify(each)) as JsonObject);
      const union = unionOf(before ?? {}, after ?? {});
      const { tree, blanks } = liveTree(union);
      expect(blanks).toEqual([]);
      for (const group of ['bench', 'tests', 'findings', 'symptoms'] as const)
        for (const document of [one, other])
          expect(Object.keys(tree[group])).toEqual(
            expect.arrayContaining(Object.keys(document[group] ?? {})),
          );
      for (const [id, finding] of Object.entries(other.findings))
        expect(valueAt(union, ['findings', id])).toEqual(finding);
    }),
    { numRuns: 100, interruptAfterTimeLimit: 20_000 },
  );
});

it('differences are counted, and listed by kind of part', () => {
  const told = tellDifferences(
    made(),
    made((document) => {
      document.title = 'Another';
      testOf(document, 'tone').minutes = 2;
      findingOf(document, 'panel-dead').because = 'It is.';
      delete document.symptoms['no-sound'];
    }),
  );
  expect(countWords(told)).toBe('4 parts differ: 1 taken out, 3 changed.');
  expect(groupsOf(told).map(({ title }) => title)).toEqual([
    'The tree itself',
    'Tests',
    'Findings',
    'Symptoms and their paths',
  ]);
  expect(countWords([])).toBe('Nothing differs in what the two say.');
});
