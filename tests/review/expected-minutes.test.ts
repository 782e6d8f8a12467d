import { expect, it } from 'vitest';
import { EXPECTED_BY, expectedMinutes } from '../../trees/review/index.ts';
import { smallTree } from '../support/trees.ts';

/** By the number of the arithmetic, the minutes that it has given of the small tree: no check of them, but of their number. */
const GIVEN: Readonly<Record<number, Readonly<Record<string, unknown>>>> = {
  1: { 'dark-screen': ['4.154610', '15.964612'], 'no-sound': ['3.182710', '11.712068'] },
};

it('has another number where it comes to give other minutes, since those of before are kept in records', () => {
  const tree = smallTree();
  const given = Object.keys(tree.symptoms).map((symptom) => [
    symptom,
    rounded(expectedMinutes(tree, symptom)),
  ]);
  expect(Object.fromEntries(given)).toEqual(GIVEN[EXPECTED_BY]);
});

function rounded(expected: ReturnType<typeof expectedMinutes>) {
  if (expected === null) return null;
  const { toFinding, toProof } = expected;
  return [toFinding.toFixed(6), toProof.toFixed(6)];
}
