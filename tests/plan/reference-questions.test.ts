import fc from 'fast-check';
import { expect, test } from 'vitest';
import { checkTree } from '../../trees/document/index.ts';
import { arbitraryQuestion, questionOf, type DrawnQuestion } from '../support/arbitrary-plan.ts';
import { beliefIn } from '../support/reference-plan-belief.ts';
import { firstState } from '../support/reference-plan-state.ts';
import { beliefOf, evidenceOf } from '../../trees/belief/index.ts';

const TOLERANCE = 1e-9;

function anyQuestion(): fc.Arbitrary<DrawnQuestion> {
  const kinds = (['isolate', 'fix'] as const).flatMap((goal) =>
    [true, false].map((certain) => arbitraryQuestion({ goal, certain })),
  );
  return fc.oneof(...kinds);
}

test('the checker finds no error in any tree that a planning question is drawn with', () => {
  fc.assert(
    fc.property(anyQuestion(), (drawn) => {
      const { tree } = questionOf(drawn).model;
      expect(checkTree(tree).filter(({ severity }) => severity === 'error')).toEqual([]);
    }),
    { numRuns: 300 },
  );
});

test('the reference sets out from the belief of the belief room, readings near a limit included, within 1e-9', () => {
  fc.assert(
    fc.property(anyQuestion(), (drawn) => {
      const question = questionOf(drawn);
      const { model, job } = question;
      const first = beliefIn(question, firstState(question));
      for (const { finding, probability } of beliefOf(model, job.symptom, evidenceOf(model.tree, job))
        .findings) {
        expect(Math.abs(probability - (first.get(finding) ?? -1))).toBeLessThan(TOLERANCE);
      }
    }),
    { numRuns: 300 },
  );
});

test('questions have what they are drawn for: interlocks, ratios, readings near a limit, failed remedies, stale openers', () => {
  const drawn = fc.sample(anyQuestion(), { numRuns: 400, seed: 1 });
  const share = (has: (question: DrawnQuestion) => boolean) => drawn.filter(has).length / drawn.length;
  const openers = ({ document }: DrawnQuestion) =>
    new Set((document.interlocks ?? []).flatMap(({ until }) => Object.keys(until)));
  expect(share(({ document }) => (document.interlocks ?? []).length > 0)).toBeGreaterThan(0.3);
  expect(
    share(({ document }) => (document.interlocks ?? []).some(({ until }) => Object.keys(until).length > 1)),
  ).toBeGreaterThan(0.05);
  expect(
    share(({ document }) =>
      Object.values(document.tests).some(({ results }) =>
        Object.values(results).some(({ band }) => band?.of !== undefined),
      ),
    ),
  ).toBeGreaterThan(0.1);
  expect(share(({ job }) => job.answers.some(({ reading }) => reading !== undefined))).toBeGreaterThan(0.1);
  expect(share(({ job }) => job.era > 0)).toBeGreaterThan(0.1);
  expect(
    share((one) => one.job.answers.some(({ test: id, era }) => era < one.job.era && openers(one).has(id))),
  ).toBeGreaterThan(0.01);
  expect(
    share(({ document, bench }) =>
      Object.entries(document.bench ?? {}).some(([axis, { start }]) => bench[axis] !== start),
    ),
  ).toBeGreaterThan(0.1);
});
