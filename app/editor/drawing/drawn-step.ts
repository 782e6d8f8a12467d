import { haveSameLeads, own, type Step, type Test, type Tree } from '../../../trees/document/index.ts';
import type { BranchShares } from './authored-shares.ts';
import { alike } from '../desk/alike.ts';
import type { DrawnResult, DrawnStep } from './graph.ts';
import type { NumberedStep } from './numbered-steps.ts';
import { branchAt, stepAt } from './places.ts';

/** What a drawn step was made of, and the lines that leave it. */
interface KeptStep {
  readonly numbered: NumberedStep;
  readonly step: Step;
  readonly test: Test | undefined;
  readonly bench: Tree['bench'];
  readonly shares: ReadonlyMap<string, number> | undefined;
  readonly drawn: DrawnStep;
}

const NO_STEP: Step = { test: '', then: {} };

/**
 * The steps of a path as they are drawn, one after another as edits make them. As long as nothing of a step that is drawn changes,
 * the same one is given again, so that an edit costs its own part.
 */
export function keepDrawnSteps(
  symptom: string,
): (tree: Tree, numbered: NumberedStep, shares: BranchShares) => DrawnStep {
  const kept = new Map<string, KeptStep>();
  return (tree, numbered, shares) => {
    const step = own(own(tree.symptoms, symptom)?.steps ?? {}, numbered.step) ?? NO_STEP;
    const test = own(tree.tests, step.test);
    const passing = shares.get(numbered.step);
    const known = kept.get(numbered.step);
    const isAlike =
      known?.test === test &&
      known?.bench === tree.bench &&
      known.numbered === numbered &&
      (known.step === step || haveSameLeads(known.step, step));
    if (isAlike && known.step === step && sameShares(known.shares, passing)) return known.drawn;
    const drawn = isAlike
      ? withShares(known.drawn, passing)
      : keptOf(known?.drawn, drawnStep(tree, symptom, numbered, step, passing));
    kept.set(numbered.step, { numbered, step, test, bench: tree.bench, shares: passing, drawn });
    return drawn;
  };
}

function keptOf(former: DrawnStep | undefined, now: DrawnStep): DrawnStep {
  return former !== undefined && alike(former, now) ? former : now;
}

/** The same step with the shares of its branches as they are now; the very same where they are as they were. */
function withShares(drawn: DrawnStep, shares: ReadonlyMap<string, number> | undefined): DrawnStep {
  const now = drawn.results.map(({ result, go }) => shareOf(shares, result, go));
  if (drawn.results.every(({ share }, place) => share === now[place])) return drawn;
  const results = drawn.results.map((result, place) => ({ ...result, share: now[place] ?? 0 }));
  return { ...drawn, share: total(results), results };
}

function shareOf(
  shares: ReadonlyMap<string, number> | undefined,
  result: string,
  go: string | undefined,
): number {
  return go === undefined ? 0 : (shares?.get(result) ?? 0);
}

function total(results: readonly DrawnResult[]): number {
  return results.reduce((sum, { share }) => sum + share, 0);
}

function sameShares(one: KeptStep['shares'], other: KeptStep['shares']): boolean {
  if (one === other) return true;
  if (one?.size !== other?.size) return false;
  for (const [result, share] of one ?? []) if (other?.get(result) !== share) return false;
  return true;
}

function drawnStep(
  tree: Tree,
  symptom: string,
  { step, number, reached }: NumberedStep,
  { test: id, then }: Step,
  shares: ReadonlyMap<string, number> | undefined,
): DrawnStep {
  const test = own(tree.tests, id);
  const given = Object.keys(test?.results ?? {});
  const others = Object.keys(then).filter((result) => !given.includes(result));
  const results = [...given, ...others].map((result, place): DrawnResult => {
    const go = own(then, result)?.go;
    return {
      at: branchAt(symptom, step, result),
      result,
      title: own(test?.results ?? {}, result)?.title ?? result,
      ...(go === undefined ? {} : { go }),
      share: shareOf(shares, result, go),
      given: place < given.length,
    };
  });
  const needs = Object.entries(test?.needs ?? {});
  return {
    kind: 'step',
    id: stepAt(symptom, step),
    at: stepAt(symptom, step),
    step,
    number,
    test: id,
    title: test?.title ?? id,
    ...(test === undefined ? {} : { instrument: test.instrument }),
    minutes: test?.minutes ?? 0,
    needs: needs.map(([axis, state]) => stateTitle(tree, axis, state)),
    reached,
    share: total(results),
    results,
  };
}

function stateTitle(tree: Tree, axis: string, state: string): string {
  return own(own(tree.bench, axis)?.states ?? {}, state)?.title ?? state;
}
