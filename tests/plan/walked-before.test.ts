import fc from 'fast-check';
import { expect, it } from 'vitest';
import { compileFaultModel, NO_HISTORY } from '../../trees/belief/index.ts';
import { checkTree, courseOf, type Tree } from '../../trees/document/index.ts';
import {
  applyChanges,
  liveTree,
  type Change,
  type DraftDocument,
  type Json,
} from '../../trees/edit/index.ts';
import { evaluate, evaluateTraffic } from '../../trees/plan/index.ts';
import { walksOf } from '../../trees/plan/evaluate-walks.ts';
import { arbitraryDocument } from '../support/arbitrary-tree.ts';
import { pick, type Draw } from '../support/draw.ts';
import { freshTree } from '../support/fresh-tree.ts';
import { drawChanges } from '../support/random-changes.ts';
import { drawWeight } from '../support/random-weight.ts';
import { smallDocument } from '../support/trees.ts';

it('a tree whose jobs were walked before an edit of it costs to the last digit what one never seen before costs', () => {
  let again = 0;
  fc.assert(
    fc.property(arbitraryDocument(), fc.gen(), fc.nat({ max: 6 }), (drawn, draw, edits) => {
      let document = drawn as unknown as DraftDocument;
      let ways: unknown;
      for (let edit = 0; edit <= edits; edit += 1) {
        const { tree } = liveTree(document);
        const [symptom] = Object.keys(tree.symptoms);
        if (symptom !== undefined && isSound(tree)) {
          expect(costOf(tree, symptom)).toEqual(costOf(freshTree(tree), symptom));
          again += Number(walksOf(tree, symptom).ways === ways);
          ({ ways } = walksOf(tree, symptom));
        }
        const applied = applyChanges(document, drawEdit(draw, document, tree));
        if (applied.ok) ({ document } = applied);
      }
    }),
    { numRuns: 100 },
  );
  // Else nothing would have been kept that could have been wrong.
  expect(again).toBeGreaterThan(50);
});

it.each<readonly [string, readonly (string | number)[], Json, boolean]>([
  ['a weight', ['symptoms', 'dark-screen', 'steps', 'supply', 'then', 'good', 'weight'], 70, true],
  ['minutes of a test', ['tests', 'tone', 'minutes'], 9, true],
  ['a text', ['findings', 'panel-dead', 'title'], 'Other', true],
  [
    'where a branch leads',
    ['symptoms', 'dark-screen', 'steps', 'supply', 'then', 'low', 'go'],
    'short',
    false,
  ],
  ['minutes of a changeover', ['bench', 'power', 'changes', 0, 'minutes'], 9, false],
  ['what a test needs', ['tests', 'tone', 'needs', 'power'], 'off', false],
  ['what a remedy needs', ['findings', 'panel-dead', 'remedy', 'needs'], { power: 'on' }, false],
  ['what a remedy disturbs', ['findings', 'panel-dead', 'remedy', 'disturbs'], ['tone'], false],
  ['what proves a remedy', ['findings', 'panel-dead', 'prove'], ['tone'], false],
  ['what opens an interlock', ['interlocks', 0, 'until'], { tone: ['heard'] }, false],
])('with %s changed, jobs are walked as before only if nothing changes their ways', (...given) => {
  const [, path, value, same] = given;
  const document = smallDocument() as unknown as DraftDocument;
  const { ways } = walksOf(liveTree(document).tree, 'dark-screen');
  const applied = applyChanges(document, [{ do: 'set', path, value }]);
  if (!applied.ok) throw new Error(applied.message);
  expect(walksOf(liveTree(applied.document).tree, 'dark-screen').ways === ways).toBe(same);
});

/** A weight or a test's minutes as often as anything. */
function drawEdit(draw: Draw, document: DraftDocument, tree: Tree): readonly Change[] {
  const kind = draw(fc.nat, { max: 5 });
  if (kind <= 2) return drawChanges(draw, document);
  const tests = Object.keys(tree.tests);
  if (kind === 3 && tests.length > 0)
    return [{ do: 'set', path: ['tests', pick(draw, tests), 'minutes'], value: pick(draw, [0, 0.5, 9]) }];
  return drawWeight(draw, tree);
}

function costOf(tree: Tree, symptom: string): unknown {
  const model = compileFaultModel(tree, NO_HISTORY);
  const { traffic, ...found } = evaluateTraffic({ model, symptom, rate: 60 });
  return { traffic, found, fix: evaluate({ model, symptom, goal: 'fix', rate: 60 }) };
}

function isSound(tree: Tree): boolean {
  return checkTree(tree).every(({ severity }) => severity === 'warning') && courseOf(tree).steps.length > 0;
}
