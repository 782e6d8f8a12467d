import { standFor, unitsIn, type Flow } from './evaluate-flow.ts';

interface Keyed {
  readonly key: string;
  readonly flow: Flow;
}

/** Picks the states that stand for all. */
export type Thinner<S> = (states: readonly S[]) => readonly S[];

/** 1/phi: its multiples' fractions lie as evenly as any that are not known in number beforehand. */
const GOLDEN = (Math.sqrt(5) - 1) / 2;

/**
 * Of the states less likely than `smallest`, some that stand for all: laid end to end in the order of their keys (like
 * next to like), each as long as it is likely, they are picked at even steps, and each picked gets the units of a step
 * (systematic sampling). No unit is lost, and likelier states stay as they are. Nothing is drawn: from call to call the
 * first step begins at another part of itself, by the golden ratio, so that what is missed here is met elsewhere.
 */
export function thinner<S extends Keyed>(smallest: number): Thinner<S> {
  let calls = 0;
  return (states) => {
    const sized = states.map((state) => ({ state, units: unitsIn(state.flow) }));
    const light = sized.filter(({ units }) => units < smallest);
    const units = light.reduce((sum, one) => sum + one.units, 0);
    const picks = Math.max(1, Math.round(units / smallest));
    if (light.length <= picks) return states;
    calls += 1;
    const heavy = sized.flatMap(({ state, units: own }) => (own < smallest ? [] : [state]));
    return [...heavy, ...picked(light, units / picks, (calls * GOLDEN) % 1)];
  };
}

interface Sized<S> {
  readonly state: S;
  readonly units: number;
}

function picked<S extends Keyed>(light: readonly Sized<S>[], step: number, start: number): readonly S[] {
  const inOrder = [...light].sort((a, b) => (a.state.key < b.state.key ? -1 : 1));
  const chosen: S[] = [];
  let end = 0;
  let next = step * start;
  for (const { state, units } of inOrder) {
    end += units;
    let times = 0;
    for (; next < end; next += step) times += 1;
    if (times === 0) continue;
    standFor(state.flow, (times * step) / units);
    chosen.push(state);
  }
  return chosen;
}
