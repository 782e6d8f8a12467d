import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { planExact, type Plan } from '../../trees/plan/index.ts';
import { arbitraryQuestion, questionOf, type DrawnQuestion } from '../support/arbitrary-plan.ts';
import type { TreeDocument } from '../support/trees.ts';

/** Sums of the same minutes in another order; probabilities lose some digits more. */
const TOLERANCE = 1e-9;

const KINDS = [
  { goal: 'isolate', certain: true },
  { goal: 'isolate', certain: false },
  { goal: 'fix', certain: true },
  { goal: 'fix', certain: false },
] as const;

describe.each(KINDS)('goal $goal, certain results: $certain', (kind) => {
  test('the order of findings and of tests in the document changes no act’s total, within 1e-9', () => {
    let moved = 0;
    const property = fc.property(arbitraryQuestion(kind), fc.infiniteStream(fc.nat(999)), (drawn, dice) => {
      const question = withProofs(drawn);
      const other = { ...question, document: shuffled(question.document, () => dice.next().value) };
      const before = planExact(questionOf(question));
      const after = planExact(questionOf(other));
      expect(Math.abs(before.expectedTotal - after.expectedTotal)).toBeLessThanOrEqual(
        TOLERANCE * Math.max(1, before.expectedTotal),
      );
      expectSameActs(before, after);
      if (JSON.stringify(other.document) !== JSON.stringify(question.document)) moved += 1;
    });
    fc.assert(property, { numRuns: 150 });
    expect(moved).toBeGreaterThan(50);
  });
});

function expectSameActs(before: Plan, after: Plan): void {
  const totals = (plan: Plan) =>
    new Map(plan.actions.map(({ kind, id, expectedTotal }) => [`${kind} ${id}`, expectedTotal]));
  const others = totals(after);
  expect([...others.keys()].sort()).toEqual([...totals(before).keys()].sort());
  for (const [act, total] of totals(before)) {
    const difference = Math.abs(total - (others.get(act) ?? Number.NaN));
    expect(difference).toBeLessThanOrEqual(TOLERANCE * Math.max(1, total));
  }
}

/** Every finding says what proves it: a proof by the tests that were not sound is made in the order of the tests. */
function withProofs(drawn: DrawnQuestion): DrawnQuestion {
  const { document } = drawn;
  const [first = ''] = Object.keys(document.tests);
  const findings = Object.entries(document.findings).map(([id, finding]) => [
    id,
    (finding.prove ?? []).length > 0 ? finding : { ...finding, prove: [first] },
  ]);
  return { ...drawn, document: { ...document, findings: Object.fromEntries(findings) } };
}

function shuffled(document: TreeDocument, next: () => number): TreeDocument {
  return {
    ...document,
    tests: reordered(document.tests, next),
    findings: reordered(document.findings, next),
  };
}

function reordered<T>(record: Readonly<Record<string, T>>, next: () => number): Record<string, T> {
  const left = Object.entries(record);
  const taken: [string, T][] = [];
  while (left.length > 0) taken.push(...left.splice(next() % left.length, 1));
  return Object.fromEntries(taken);
}
