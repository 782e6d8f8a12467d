import { UNLISTED, type Tree } from '../../../trees/document/index.ts';
import type { Advice, Held, Reasoned, Why } from '../../../trees/plan/index.ts';
import { minutesWords, percent } from '../../parts/format.ts';
import { findingTitle, testTitle } from '../job/act-words.ts';

type Planned = Pick<Reasoned, 'kind' | 'id'>;
type WhyOf<K extends Why['kind']> = Why & { readonly kind: K };

/** At most this many results' shares are named. */
const SHOWN = 3;
/** What is told from a finding rarer than this speaks for no test. */
const LEAST_TOLD = 0.01;

/** What the planner would do, as the title of an act. */
export function plannedTitle(tree: Tree, { kind, id }: Planned): string {
  switch (kind) {
    case 'test':
      return testTitle(tree, id);
    case 'remedy':
      return `Remedy for “${findingTitle(tree, id)}”`;
    case 'pass-on':
      return 'Pass the unit on';
  }
}

/** What it is expected to save against the tree's next act. */
export function savesWords({ saves, byTree }: Advice): string {
  return byTree === null
    ? ''
    : `Saves an expected ${minutesWords(saves)} of ${minutesWords(byTree.expectedTotal)}`;
}

/** How long it is expected to take from here. */
export function totalWords({ expectedTotal }: Pick<Reasoned, 'expectedTotal'>): string {
  return `expected ${minutesWords(expectedTotal)} to repair, prove or pass on`;
}

/** Why the planner would do it, in one sentence made of numbers. `rate` is the shop's hourly rate; null: parts do not count. */
export function whyWords(tree: Tree, advice: Advice, rate: number | null): string {
  const { best, byTree } = advice;
  if (best === null) return '';
  const against = byTree === null ? '' : `; ${treeWords(tree, byTree)}`;
  switch (best.why.kind) {
    case 'test':
      return `${testWords(tree, best, best.why)}${against}.`;
    case 'remedy':
      return `${remedyWords(tree, advice, best, best.why, rate)}${against}.`;
    case 'pass-on':
      return `${passOnWords(tree, advice, best, best.why)}.`;
  }
}

function testWords(tree: Tree, best: Reasoned, { shares, tells }: WhyOf<'test'>): string {
  const takes = takesWords(tree, best);
  if (shares.length < 2) return `It tells nothing new, but what follows needs it, and it takes ${takes}`;
  const expected = `its results are expected ${sharesWords(shares)}`;
  if (tells === null || tells[1].probability < LEAST_TOLD) return `It takes ${takes}, and ${expected}`;
  const [one, other] = tells;
  return `It tells ${heldWords(tree, one)} from ${heldWords(tree, other)} in ${takes}, and ${expected}`;
}

function remedyWords(
  tree: Tree,
  { plan }: Advice,
  { id, minutes, expectedTotal }: Reasoned,
  { probability, mends }: WhyOf<'remedy'>,
  rate: number | null,
): string {
  const hasParts = rate !== null && (tree.findings[id]?.remedy.parts.length ?? 0) > 0;
  const included = hasParts ? 'parts and proof included' : 'proof included';
  const now = `At ${percent(probability)} likely, trying it now (${minutesWords(minutes)}, ${included}) is expected to mend ${percent(mends)} of units`;
  const test = plan.actions.find(({ kind }) => kind === 'test');
  if (test === undefined) return now;
  const [all, other] = [minutesWords(expectedTotal), minutesWords(test.expectedTotal)];
  return all === other
    ? `${now} and to come to ${all} in all, no more than testing on`
    : `${now} and to come to ${all} in all, testing on to ${other}`;
}

function passOnWords(
  tree: Tree,
  { plan }: Advice,
  { minutes }: Reasoned,
  { likeliest }: WhyOf<'pass-on'>,
): string {
  const next = plan.actions.find(({ kind }) => kind !== 'pass-on');
  const other =
    next === undefined
      ? 'nothing else is left to do'
      : `the best of the rest, ${doingWords(tree, next)}, to ${minutesWords(next.expectedTotal)}`;
  return `No test or remedy is worth its minutes any more: ${heldWords(tree, likeliest)} leads, passing on comes to an expected ${minutesWords(minutes)}, and ${other}`;
}

/** An act as part of a sentence. */
function doingWords(tree: Tree, { kind, id }: Planned): string {
  switch (kind) {
    case 'test':
      return `“${testTitle(tree, id)}”`;
    case 'remedy':
      return `the remedy for “${findingTitle(tree, id)}”`;
    case 'pass-on':
      return 'passing the unit on';
  }
}

/** What the tree's own next act would do. */
function treeWords(tree: Tree, byTree: Reasoned): string {
  const { why, minutes } = byTree;
  if (why.kind === 'test') {
    const settled = `is expected to settle ${percent(why.settles)} of units`;
    return `the tree’s “${testTitle(tree, byTree.id)}” takes ${takesWords(tree, byTree)} and ${settled}`;
  }
  const mended = why.kind === 'remedy' ? why.mends : 0;
  return `the tree’s remedy takes ${minutesWords(minutes)}, proof included, and is expected to mend ${percent(mended)} of units`;
}

/** A test's minutes; they are more than its own where the bench must be changed for it. */
function takesWords(tree: Tree, { id, minutes }: Reasoned): string {
  const own = tree.tests[id]?.minutes ?? minutes;
  return `${minutesWords(minutes)}${minutes > own + 1e-9 ? ' with its changeovers' : ''}`;
}

function heldWords(tree: Tree, { finding, probability }: Held): string {
  const title = findingTitle(tree, finding);
  return `${finding === UNLISTED ? title.charAt(0).toLowerCase() + title.slice(1) : `“${title}”`} (${percent(probability)})`;
}

/** The likeliest results' shares, as `62/38`; those that round to nothing are left out. */
function sharesWords(shares: readonly number[]): string {
  const whole = shares.map((share) => Math.round(share * 100)).filter((share) => share > 0);
  if (whole.length < 2) return '>99/<1';
  return `${whole.slice(0, SHOWN).join('/')}${whole.length > SHOWN ? '/…' : ''}`;
}

/** Beside the question, what the planner makes of the tree's next act in one line; empty where it cannot compare. */
export function besideWords(tree: Tree, advice: Advice): string {
  const { best, byTree, saves, worthSaying } = advice;
  if (best === null || byTree === null) return '';
  if (best.kind === byTree.kind && best.id === byTree.id) return `The planner agrees: ${totalWords(best)}.`;
  return worthSaying
    ? `The planner would do otherwise and save an expected ${minutesWords(saves)}.`
    : `The planner expects ${minutesWords(saves)} of ${minutesWords(byTree.expectedTotal)} less with ${doingWords(tree, best)} first.`;
}
