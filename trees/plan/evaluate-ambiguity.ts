import type { FaultModel, TestModel } from '../belief/index.ts';
import { UNLISTED } from '../document/index.ts';

/** Probabilities nearer than this are the same. */
const SAME = 1e-9;

/**
 * The groups of two or more findings (with some prior probability; `unlisted` left out) that none of these tests tells
 * apart, having the same P(r|f,t) for all of them, in the tree's order.
 */
export function ambiguityGroups(
  model: FaultModel,
  symptom: string,
  tests: readonly string[],
): readonly (readonly string[])[] {
  const { probability } = model.prior(symptom);
  const tables = tests.map((test) => model.test(test));
  const groups: string[][] = [];
  for (const [row, finding] of model.findings.entries()) {
    if (finding === UNLISTED || (probability[row] ?? 0) === 0) continue;
    const alike = groups.find(([first = '']) => areAlike(tables, model.row(first), row));
    if (alike === undefined) groups.push([finding]);
    else alike.push(finding);
  }
  return groups.filter(({ length }) => length > 1);
}

function areAlike(tables: readonly TestModel[], one: number, other: number): boolean {
  return tables.every(({ results: { length: k }, probability }) => {
    for (let column = 0; column < k; column += 1) {
      const difference = (probability[one * k + column] ?? 0) - (probability[other * k + column] ?? 0);
      if (Math.abs(difference) > SAME) return false;
    }
    return true;
  });
}
