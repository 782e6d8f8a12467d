import fc from 'fast-check';
import { expect, test } from 'vitest';
import { compileFaultModel, NO_HISTORY } from '../../trees/belief/index.ts';
import { advance, compileChart, standing, type Walk } from '../../trees/chart/index.ts';
import type { Tree } from '../../trees/document/index.ts';
import { FRESH, resultAt } from '../../trees/plan/marks.ts';
import { leaveBarred } from '../../trees/plan/position.ts';
import { problemOf, type Problem } from '../../trees/plan/problem.ts';
import { proofOf } from '../../trees/plan/proof.ts';
import { after, answerWith, wander, type Dice } from '../chart/walking.ts';
import { arbitraryTree } from '../support/arbitrary-tree.ts';

/** Sums of the same minutes in another order. */
const TOLERANCE = 1e-9;
const MOST_ACTS = 300;

const throws = fc.array<Dice>(fc.tuple(fc.nat(9999), fc.nat(9999), fc.nat(9999), fc.nat(9999)), {
  maxLength: 25,
});

/**
 * Half of the trees prove every remedy by every test that opens no interlock, so that many have to be opened on the way, some by
 * results that a sound unit does not give.
 */
const trees = fc.tuple(arbitraryTree(), fc.boolean()).map(([tree, provesAll]): Tree => {
  if (!provesAll) return tree;
  const openers = tree.interlocks.flatMap(({ until }) => Object.keys(until));
  const prove = Object.keys(tree.tests).filter((id) => !openers.includes(id));
  const findings = Object.entries(tree.findings).map(([id, finding]) => [id, { ...finding, prove }]);
  const interlocks = tree.interlocks.map((interlock) => ({
    ...interlock,
    until: Object.fromEntries(
      Object.entries(interlock.until).map(([id, results]) => [
        id,
        results.length > 1 ? results.slice(1) : results,
      ]),
    ),
  }));
  return { ...tree, interlocks, findings: Object.assign(Object.create(null), Object.fromEntries(findings)) };
});

test('takes the minutes that walking the chart takes from the remedy done to the unit mended, and leaves the bench so, within 1e-9', () => {
  const seen = { proofs: 0, opened: 0, left: 0 };
  const property = fc.property(trees, fc.nat(9), throws, (tree, which, dice) => {
    const symptoms = Object.keys(tree.symptoms);
    const walks = wander(compileChart(tree), symptoms[which % symptoms.length] ?? '', dice);
    for (const { walk } of [...walks.slice(0, 1), ...walks.slice(-1)]) {
      for (const finding of Object.keys(tree.findings)) {
        const ready = readyToDo(walk, finding);
        const walked = ready === null ? null : walkProof(ready);
        const planned = ready === null ? null : plannedProof(ready, finding);
        if (walked === null || planned === null) continue;
        expect(Math.abs(planned.minutes - walked.minutes)).toBeLessThanOrEqual(TOLERANCE);
        expect(planned.bench).toEqual(walked.bench);
        expect(planned.made.toSorted()).toEqual(walked.made.toSorted());
        seen.proofs += 1;
        if (walked.opened) seen.opened += 1;
        if (planned.leaving > 0) seen.left += 1;
      }
    }
  });
  fc.assert(property, { numRuns: 200 });
  expect(seen.proofs).toBeGreaterThan(200);
  expect(seen.opened).toBeGreaterThan(15);
  expect(seen.left).toBeGreaterThan(5);
}, 120_000);

/**
 * The walk with this finding's remedy in hand and the bench as it needs; null where the chart does not come to that. It is taken in
 * hand anew once the bench stands so, since the planner's remedies are: a proof asks for what was not sound when its remedy was taken
 * in hand, and for the planner the interlocks' tests on the way to a remedy's bench come before that.
 */
function readyToDo(walk: Walk, finding: string): Walk | null {
  let now = taken(walk, { kind: 'start-remedy', finding });
  for (let acts = 0; now !== null && acts < MOST_ACTS; acts += 1) {
    const { act } = standing(now);
    if (act.kind === 'remedy') return takenInHandAnew(now, finding);
    now = stepped(now);
  }
  return null;
}

/** Throws where that changes what is to be done, as it never may. */
function takenInHandAnew(ready: Walk, finding: string): Walk {
  const anew = after(
    ready,
    { kind: 'give-up-remedy', reason: 'The bench stands now' },
    { kind: 'start-remedy', finding },
  );
  expect(standing(anew).act).toEqual(standing(ready).act);
  return anew;
}

/** What the chart asks for from the remedy done to the unit mended; null where a reading cannot be had, or the proof cannot be passed. */
function walkProof(ready: Walk) {
  const done = advance(ready, { kind: 'remedy-done' });
  let now: Walk | null = done.ok ? done.walk : null;
  let minutes = 0;
  let opened = false;
  for (let acts = 0; now !== null && acts < MOST_ACTS; acts += 1) {
    const { act, bench, job } = standing(now);
    const { tests } = now.chart.tree;
    if (act.kind === 'mended') {
      const made = job.answers.filter(({ era }) => era === job.era).map(({ test }) => test);
      return { minutes, bench, made, opened };
    }
    if (act.kind === 'change') minutes += act.change.minutes;
    if (act.kind === 'test') minutes += tests[act.test]?.minutes ?? Number.NaN;
    if (act.kind === 'test' && act.purpose.kind === 'interlock') opened = true;
    now = stepped(now);
  }
  return null;
}

/** The act shown, done: a test gives its first result, an interlock's the first that is allowed; null where it cannot be. */
function stepped(walk: Walk): Walk | null {
  const { act } = standing(walk);
  const { tree } = walk.chart;
  if (act.kind === 'change') return taken(walk, { kind: 'change', axis: act.axis, to: act.change.to });
  if (act.kind !== 'test') return null;
  const { purpose } = act;
  const until = purpose.kind === 'interlock' ? tree.interlocks[purpose.interlock]?.until : undefined;
  const result = until?.[act.test]?.[0] ?? Object.keys(tree.tests[act.test]?.results ?? {})[0] ?? '';
  const answer = answerWith(walk, act.test, result);
  return answer === null ? null : taken(walk, answer);
}

function taken(walk: Walk, event: Parameters<typeof advance>[1]): Walk | null {
  const next = advance(walk, event);
  return next.ok ? next.walk : null;
}

/** What the planner takes for the same, with the minutes of leaving states that the remedy has barred; null where the finding cannot be. */
function plannedProof(ready: Walk, finding: string) {
  const { tree } = ready.chart;
  const { job, bench } = standing(ready);
  const problem = problemOf({
    model: compileFaultModel(tree, NO_HISTORY),
    goal: 'fix',
    job,
    bench,
    rate: null,
  });
  const row = problem.findings.indexOf(finding);
  const before = problem.start;
  if (row < 0 || !hasOneOrder(tree, problem, finding)) return null;
  const done = before.map((mark, at) => (at < problem.tests.length ? mark & ~FRESH : mark));
  for (const at of problem.remedies[row]?.disturbs ?? []) done[at] = 0;
  const leaving = leaveBarred(problem, done);
  const proof = proofOf(problem, row, before, done);
  const { axes, states } = problem.bench;
  const stand = axes.map((axis, at) => [axis, states[at]?.[proof.bench[at] ?? -1]]);
  return {
    minutes: leaving + proof.minutes,
    leaving,
    bench: Object.fromEntries(stand),
    made: proof.made.map((at) => problem.tests[at]?.id ?? ''),
  };
}

/** Tests that prove a remedy because they were not sound are made in the order of their answers by the chart, in the tree's by the planner. */
function hasOneOrder(tree: Tree, { tests, start }: Problem, finding: string): boolean {
  if ((tree.findings[finding]?.prove ?? []).length > 0) return true;
  return tests.filter((_, at) => resultAt(start[at] ?? 0) > 0).length < 2;
}
