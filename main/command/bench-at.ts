import { firstSituation, isOpen, type Bench, type JobState } from '../../trees/chart/index.ts';
import { own, type Interlock, type Tree } from '../../trees/document/index.ts';
import { value, wrongUse, type Or } from './outcome.ts';

/** How the unit stands on the bench by `AXIS=STATE`; an axis of which nothing is said stands at its start. */
export function readBench(tree: Tree, symptom: string, written: readonly string[]): Or<Bench> {
  const said = new Map<string, string>();
  for (const one of written) {
    const at = one.indexOf('=');
    if (at < 1) return wrongUse(`--at ${one} is not understood.`, 'Write --at AXIS=STATE.');
    const axis = one.slice(0, at);
    const state = one.slice(at + 1);
    const states = own(tree.bench, axis)?.states;
    if (states === undefined) return wrongUse(`--at ${one}: the tree has no axis "${axis}".`, axesOf(tree));
    if (!Object.hasOwn(states, state)) {
      return wrongUse(
        `--at ${one}: the axis "${axis}" has no state "${state}".`,
        `Its states are: ${Object.keys(states).join(', ')}.`,
      );
    }
    if (said.has(axis)) return wrongUse(`--at names the axis "${axis}" twice.`, 'Give each axis once.');
    said.set(axis, state);
  }
  return value({ ...firstSituation(tree, symptom).bench, ...Object.fromEntries(said) });
}

function axesOf({ bench }: Tree): string {
  const axes = Object.keys(bench);
  return axes.length === 0 ? 'It has none: leave --at out.' : `Its axes are: ${axes.join(', ')}.`;
}

/** Refuses a bench that stands in a state which an interlock bars as the answers stand. */
export function unbarred(tree: Tree, job: JobState, bench: Bench): Or<Bench> {
  for (const interlock of tree.interlocks) {
    if (isOpen(interlock, job)) continue;
    const [axis, state] =
      Object.entries(interlock.change).find(([axis, state]) => own(bench, axis) === state) ?? [];
    if (axis === undefined || state === undefined) continue;
    return wrongUse(
      `The bench cannot stand at ${axis}=${state}, which an interlock bars: ${interlock.because}`,
      `Leave that state first, and say with --at how the bench stands then; or give what opens the interlock: ${openedBy(interlock)}.`,
    );
  }
  return value(bench);
}

function openedBy({ until }: Interlock): string {
  return Object.entries(until)
    .map(([test, allowed]) => `--given ${test}=${allowed.join('|')}`)
    .join(' ');
}
