import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { compileFaultModel, NO_HISTORY } from '../../trees/belief/index.ts';
import { destination, readAndCheck, type Destination, type Tree } from '../../trees/document/index.ts';
import {
  documentWith,
  evaluate,
  propose,
  type Goal,
  type Proposal,
  type ProposeQuestion,
} from '../../trees/plan/index.ts';
import { arbitraryDocument } from '../support/arbitrary-tree.ts';
import { treeOf, type TreeDocument } from '../support/trees.ts';

/** A drawn document, one of its symptoms, and what is proposed for it. */
interface Drawn {
  readonly document: TreeDocument;
  readonly question: ProposeQuestion;
  readonly proposal: Proposal;
}

function drawn(
  document: TreeDocument,
  which: number,
  goal: Goal,
  asked: Pick<ProposeQuestion, 'method' | 'isTimeUp'>,
): Drawn {
  const model = compileFaultModel(treeOf(document), NO_HISTORY);
  const symptoms = Object.keys(document.symptoms);
  const symptom = symptoms[which % symptoms.length] ?? '';
  const question = { model, symptom, goal, rate: 40, ...asked };
  return { document, question, proposal: propose(question) };
}

describe.each<[Goal, 'fast' | 'exact', number]>([
  ['isolate', 'fast', 100],
  ['fix', 'fast', 100],
  ['isolate', 'exact', 15],
  ['fix', 'exact', 15],
])('what is proposed for a drawn tree to %s, %s', (goal, method, numRuns) => {
  it('keeps the tree sound, what it says, and what leads into it, and takes no more minutes than before', () => {
    let changed = 0;
    fc.assert(
      fc.property(arbitraryDocument(), fc.nat(9), (document, which) => {
        let asked = 0;
        const isTimeUp = () => (asked += 1) > 20;
        const found = drawn(document, which, goal, { method, isTimeUp });
        changed += Number(found.proposal.changed);
        expectSound(found);
        expectSame(found);
        expectKept(found);
        expectNoWorse(found);
      }),
      { numRuns },
    );
    expect(changed).toBeGreaterThan(numRuns / 20);
  }, 120_000);
});

it('the same question has the same answer, and the proposed tree evaluated says what the proposal says', () => {
  fc.assert(
    fc.property(
      arbitraryDocument(),
      fc.nat(9),
      fc.constantFrom<Goal>('isolate', 'fix'),
      (document, which, goal) => {
        const one = drawn(document, which, goal, { method: 'fast' });
        expect(drawn(document, which, goal, { method: 'fast' }).proposal).toEqual(one.proposal);
        expect(evaluate({ ...one.question, tree: one.proposal.tree })).toEqual(one.proposal.after);
      },
    ),
    { numRuns: 20 },
  );
}, 60_000);

it('an exact search whose time is up at once still gives a sound tree that takes no more minutes', () => {
  fc.assert(
    fc.property(
      arbitraryDocument(),
      fc.nat(9),
      fc.constantFrom<Goal>('isolate', 'fix'),
      (document, which, goal) => {
        const found = drawn(document, which, goal, { method: 'exact', isTimeUp: () => true });
        expectSound(found);
        expectNoWorse(found);
        expect(found.proposal.gap).toBeGreaterThanOrEqual(0);
      },
    ),
    { numRuns: 30 },
  );
}, 60_000);

/** As a tree and as a document: read, checked, the same tree. A symptom that had no path has one by which some units end at a finding. */
function expectSound({ document, question: { symptom }, proposal }: Drawn): void {
  const { tree, changed, before, after } = proposal;
  const written = documentWith(document, tree, symptom);
  const read = readAndCheck(new TextEncoder().encode(JSON.stringify(written)));
  expect(read.errors).toEqual([]);
  expect(read.tree).toEqual(tree);
  if (!changed) expect(written).toEqual(document);
  if (before !== null || !changed) return;
  expect(tree.symptoms[symptom]?.first).toBeDefined();
  expect(after.ends.some(({ finding, probability }) => finding !== 'pass-on' && probability > 0)).toBe(true);
}

/** No history: the new tree's own fault model says what the former one's said, within the half percent that what is written out is rounded by. */
function expectSame({ question: { model }, proposal: { tree } }: Drawn): void {
  const own = compileFaultModel(tree, NO_HISTORY);
  const apart = (one: Float64Array, other: Float64Array) =>
    one.reduce(
      (most, value, at) => Math.max(most, Math.abs(value - (other[at] ?? Infinity)) / value || 0),
      0,
    );
  for (const symptom of Object.keys(tree.symptoms))
    expect(
      apart(own.prior(symptom).probability, model.prior(symptom).probability),
      symptom,
    ).toBeLessThanOrEqual(ROUNDED);
  for (const test of Object.keys(tree.tests))
    expect(apart(own.test(test).probability, model.test(test).probability), test).toBeLessThanOrEqual(
      ROUNDED,
    );
}

/** Half a percent, and what sums of it are rounded by. */
const ROUNDED = 0.005 + 1e-9;

/** Ids, other symptoms' paths, and the steps that these or a finding's `otherwise` lead to with all that follows. */
function expectKept({ question: { model, symptom }, proposal: { tree } }: Drawn): void {
  const former = model.tree;
  for (const kind of ['tests', 'findings', 'symptoms'] as const)
    expect(Object.keys(tree[kind])).toEqual(Object.keys(former[kind]));
  expect(tree.tests).toEqual(former.tests);
  for (const [id, { first, steps }] of Object.entries(former.symptoms))
    if (id !== symptom)
      expect({ first, steps }).toEqual({ first: tree.symptoms[id]?.first, steps: tree.symptoms[id]?.steps });
  for (const [id, finding] of Object.entries(former.findings))
    expect({ ...tree.findings[id], expects: null }).toEqual({ ...finding, expects: null });
  for (const step of ledTo(former, symptom))
    expect(tree.symptoms[symptom]?.steps[step], step).toEqual(former.symptoms[symptom]?.steps[step]);
}

function ledTo(tree: Tree, symptom: string): ReadonlySet<string> {
  const ways = Object.entries(tree.symptoms)
    .filter(([id]) => id !== symptom)
    .flatMap(([id, { steps }]) =>
      Object.values(steps).flatMap(({ then }) => Object.values(then).map(({ go }) => destination(go, id))),
    );
  const otherwise = Object.values(tree.findings).flatMap((finding) =>
    finding.otherwise === undefined ? [] : [destination(finding.otherwise, symptom)],
  );
  const led = new Set<string>();
  const follow = (place: Destination): void => {
    if (place.kind !== 'step' || place.symptom !== symptom || led.has(place.step)) return;
    const step = tree.symptoms[symptom]?.steps[place.step];
    if (step === undefined) return;
    led.add(place.step);
    for (const { go } of Object.values(step.then)) follow(destination(go, symptom));
  };
  for (const place of [...ways, ...otherwise]) follow(place);
  return led;
}

function expectNoWorse({ proposal: { before, after, moves, changed } }: Drawn): void {
  if (before === null) return;
  const saved = before.expectedMinutes - after.expectedMinutes;
  expect(saved).toBeGreaterThanOrEqual(0);
  expect(changed).toBe(saved > 0);
  expect(after.rightFinding).toBeGreaterThanOrEqual(before.rightFinding - 0.01);
  const sum = moves.reduce((so, { saves }) => so + saves, 0);
  expect(Math.abs(sum - saved)).toBeLessThan(1e-6);
  expect(moves.map(({ saves }) => saves)).toEqual(moves.map(({ saves }) => saves).sort((a, b) => b - a));
}
