import { own, type Tree } from '../../../trees/document/index.ts';
import type { Goal, Move } from '../../../trees/plan/index.ts';
import { minutesWords } from '../../parts/format.ts';
import { goWords, stepWords, titled } from '../desk/part-words.ts';
import type { ShownPart } from './protocol.ts';

/** What there is to name the parts of a proposal by. */
export interface Naming {
  readonly tree: Tree;
  readonly symptom: string;
  /** By new step its test. */
  readonly newSteps: ReadonlyMap<string, string>;
}

/** A part in a line: which step, and that it asks another test or begins the path. */
export function partTitle(naming: Naming, { step, first, test }: ShownPart): string {
  const { tree, symptom } = naming;
  if (first !== null) return `Begin with ${placeWords(naming, first[1])}`;
  const at = stepWords(tree, symptom, step ?? '');
  const words = at.charAt(0).toUpperCase() + at.slice(1);
  return test === null ? words : `${words}: ask ${titled(own(tree.tests, test[1])?.title)} instead`;
}

/** What a part does to each branch that leads elsewhere with it. */
export function branchLines(naming: Naming, { step, test, branches }: ShownPart): readonly string[] {
  const { tree, symptom } = naming;
  const asked = test?.[1] ?? own(own(tree.symptoms, symptom)?.steps ?? {}, step ?? '')?.test ?? '';
  const results = own(tree.tests, asked)?.results ?? {};
  return branches.map(({ result, before, after }) => {
    const name = titled(own(results, result)?.title ?? result);
    if (after === null) return `${name}: gone`;
    const to = placeWords(naming, after);
    if (before === null) return `${name}: to ${to}`;
    const again = sameTest(naming, before, after);
    return `${name}: to ${again ?? `${to}, not to ${placeWords(naming, before)}`}`;
  });
}

/** The steps that go with a part, as nothing leads to them any more; null where there are none. */
export function goneLine({ tree, symptom }: Naming, steps: readonly string[]): string | null {
  if (steps.length === 0) return null;
  const named = steps.slice(0, STEPS_NAMED).map((step) => stepWords(tree, symptom, step));
  const more = steps.length - named.length;
  const rest = more > 0 ? [`${String(more)} more`] : [];
  return `Takes out what nothing leads to any more: ${[...named, ...rest].join('; ')}`;
}

const STEPS_NAMED = 6;

/** How many units fewer a proposed order mends or ends rightly; null where it is less than one in a hundred. */
export function fewerWords(before: number, after: number, goal: Goal): string | null {
  const points = Math.round(100 * (before - after));
  if (before - after <= LEAST_SHARE) return null;
  const units = points === 1 ? 'one unit' : `${String(points)} units`;
  return `${goal === 'fix' ? 'Mends' : 'Ends at the right finding for'} ${units} in a hundred fewer`;
}

const LEAST_SHARE = 0.01;

/** Minutes fewer than these are not told: they would read as none. */
const LEAST_MINUTES = 0.05;

/**
 * What is done more or less often, or at another place, and the minutes that saves or takes; null where the figures that are shown
 * are the same.
 */
export function moveWords(tree: Tree, { kind, id, saves, made, place }: Move): string | null {
  const [before = '', after = ''] = made.map((times) => times.toFixed(2));
  const minutes =
    Math.abs(saves) < LEAST_MINUTES ? '' : `, ${saves < 0 ? '+' : '−'}${minutesWords(Math.abs(saves))}`;
  const [was, is] = place;
  const places = was === null || is === null ? [] : [was.toFixed(1), is.toFixed(1)];
  const told = [
    ...(before === after ? [] : [`${before} → ${after} times a unit`]),
    ...(places[0] === places[1] ? [] : [`at place ${places.join(' → ')}`]),
  ];
  return told.length === 0 ? null : `${doneWords(tree, kind, id)}: ${told.join(', ')}${minutes}`;
}

function doneWords(tree: Tree, kind: Move['kind'], id: string): string {
  switch (kind) {
    case 'test':
      return `test ${titled(own(tree.tests, id)?.title)}`;
    case 'remedy':
      return `remedy for ${titled(own(tree.findings, id)?.title)}`;
    case 'pass-on':
      return 'passing the unit on';
    case 'changeover':
      return `changeover ${changeWords(tree, id)}`;
  }
}

/** A changeover as `axis:from>to`. */
function changeWords(tree: Tree, id: string): string {
  const [axis = '', change = ''] = id.split(':');
  const [from = '', to = ''] = change.split('>');
  const states = own(tree.bench, axis)?.states ?? {};
  return `${titled(own(states, from)?.title)} → ${titled(own(states, to)?.title)}`;
}

/** Of a branch that leads to a new step for the test that it leads to as it is, what is new about it; null for any other. */
function sameTest(naming: Naming, before: string, after: string): string | null {
  const { tree, symptom, newSteps } = naming;
  const test = newSteps.get(after);
  const former = own(own(tree.symptoms, symptom)?.steps ?? {}, before);
  if (test === undefined || former?.test !== test) return null;
  return `a new step that makes the test of ${stepWords(tree, symptom, before)}, and goes on otherwise`;
}

/** Where a proposed branch leads; a step that is new is named by its test. */
function placeWords({ tree, symptom, newSteps }: Naming, go: string): string {
  const test = newSteps.get(go);
  return test === undefined
    ? goWords(tree, symptom, go)
    : `a new step, ${titled(own(tree.tests, test)?.title)}`;
}
