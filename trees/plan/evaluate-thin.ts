import { standFor, unitsIn, type Flow } from './evaluate-flow.ts';
import { sortInBits } from './sort-in-bits.ts';

interface Keyed {
  readonly key: string;
  readonly flow: Flow;
}

/** Picks the states that stand for all, pausing after some hundred of them, each time giving how many were gone through since. */
export type Thinner<S> = (states: readonly S[]) => Generator<number, readonly S[], void>;

/** States gone through at a time. */
const AT_ONCE = 256;

/** 1/phi: its multiples' fractions lie as evenly as any that are not known in number beforehand. */
const GOLDEN = (Math.sqrt(5) - 1) / 2;

/**
 * Of the states less likely than `smallest`, some that stand for all: laid end to end in the order of their keys (like
 * next to like), each as long as it is likely, they are picked at even steps, and each picked gets the units of a step
 * (systematic sampling). No unit is lost, and likelier states stay as they are. Nothing is drawn: from call to call the
 * first step begins at another part of itself, by the golden ratio, so that what is missed here is met elsewhere. `left` is told
 * each state that is not picked: its flow is not needed any more.
 */
export function thinner<S extends Keyed>(smallest: number, left: (state: S) => void): Thinner<S> {
  let calls = 0;
  return function* (states) {
    const sized: Sized<S>[] = [];
    for (const state of states) {
      sized.push({ state, units: unitsIn(state.flow) });
      if (sized.length % AT_ONCE === 0) yield AT_ONCE;
    }
    const light = sized.filter(({ units }) => units < smallest);
    const units = light.reduce((sum, one) => sum + one.units, 0);
    const picks = Math.max(1, Math.round(units / smallest));
    if (light.length <= picks) return states;
    calls += 1;
    const start = (calls * GOLDEN) % 1;
    const heavy = sized.flatMap(({ state, units: own }) => (own < smallest ? [] : [state]));
    const inOrder = yield* sortInBits(light, (a, b) => (a.state.key < b.state.key ? -1 : 1));
    return [...heavy, ...(yield* picked(inOrder, units / picks, start, left))];
  };
}

interface Sized<S> {
  readonly state: S;
  readonly units: number;
}

function* picked<S extends Keyed>(
  light: readonly Sized<S>[],
  step: number,
  start: number,
  left: (state: S) => void,
): Generator<number, readonly S[], void> {
  const chosen: S[] = [];
  let end = 0;
  let next = step * start;
  for (const [at, { state, units }] of light.entries()) {
    if (at % AT_ONCE === AT_ONCE - 1) yield AT_ONCE;
    end += units;
    let times = 0;
    for (; next < end; next += step) times += 1;
    if (times === 0) {
      left(state);
      continue;
    }
    standFor(state.flow, (times * step) / units);
    chosen.push(state);
  }
  return chosen;
}
