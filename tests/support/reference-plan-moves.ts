import { shortest, wayToTest, type Answer, type JobState } from '../../trees/chart/index.ts';
import type { Needs, Tree } from '../../trees/document/index.ts';
import type { State } from './reference-plan-state.ts';

type Bench = State['bench'];
type Locks = Pick<State, 'results' | 'fresh' | 'vouched'>;

/** How the bench stands after some moves, and the minutes they took. */
export interface Moved {
  readonly minutes: number;
  readonly bench: Bench;
}

/** Whether an interlock now bars changeovers into this state. */
export function isBarred(tree: Tree, state: Locks, axis: string, into: string): boolean {
  return tree.interlocks.some(({ change, until }) => {
    if (!Object.hasOwn(change, axis) || change[axis] !== into) return false;
    return !Object.entries(until).every(([test, allowed]) => isAllowed(state, test, allowed));
  });
}

function isAllowed({ results, fresh, vouched }: Locks, test: string, allowed: readonly string[]): boolean {
  if (!fresh.has(test)) return false;
  return vouched.has(test) || allowed.includes(results.get(test) ?? '');
}

/** The changeovers with the fewest minutes to these needs, none of them barred; null where there is no such way. */
export function changedOver(tree: Tree, state: State, needs: Needs): Moved | null {
  let minutes = 0;
  let bench = state.bench;
  for (const [axis, wanted] of Object.entries(needs)) {
    const way = fewestMinutes(tree, state, axis, wanted);
    if (way === Infinity) return null;
    minutes += way;
    bench = { ...bench, [axis]: wanted };
  }
  return { minutes, bench };
}

/** Goes down every way that passes no state twice. */
function fewestMinutes(tree: Tree, state: State, axis: string, wanted: string): number {
  const onward = (at: string, passed: readonly string[]): number => {
    if (at === wanted) return 0;
    let least = Infinity;
    for (const { from, to, minutes } of tree.bench[axis]?.changes ?? []) {
      if (from !== at || passed.includes(to) || isBarred(tree, state, axis, to)) continue;
      least = Math.min(least, minutes + onward(to, [...passed, to]));
    }
    return least;
  };
  const at = state.bench[axis] ?? '';
  return onward(at, [at]);
}

/** Each axis that stands in a barred state leaves it, where it can. A free changeover never leads into another such state. */
export function madeSafe(tree: Tree, state: State): Moved {
  let minutes = 0;
  let bench = state.bench;
  for (const [axis, { start, changes }] of Object.entries(tree.bench)) {
    const at = state.bench[axis] ?? '';
    if (!isBarred(tree, state, axis, at)) continue;
    const free = changes.filter(({ to }) => !isBarred(tree, state, axis, to));
    const out = free.filter(({ from }) => from === at).toSorted((a, b) => a.minutes - b.minutes);
    const change = shortest(free, at, start)?.[0] ?? out[0];
    if (change === undefined) continue;
    minutes += change.minutes;
    bench = { ...bench, [axis]: change.to };
  }
  return { minutes, bench };
}

/** A proof gone through: every test made for it, those on the way among them. */
export interface Proof extends Moved {
  readonly made: ReadonlySet<string>;
}

/**
 * The proof of a remedy just done, all interlocks shut, as the chart asks for it: its own tests give their first results, and those
 * on the way what opens the interlocks. A test that the chart cannot bring about is left out.
 */
export function proved(tree: Tree, known: Iterable<string>, bench: Bench, prove: readonly string[]): Proof {
  const suiting = suitingInterlocks(tree, prove);
  const before = [...known].map((test) => answered(tree, test, 0));
  let proof: Proof = { minutes: 0, bench, made: new Set() };
  for (const test of prove) {
    if (!proof.made.has(test)) proof = broughtAbout(suiting, before, proof, test) ?? proof;
  }
  return proof;
}

/** More moves than any way in a drawn tree has. */
const MOST_MOVES = 200;

function broughtAbout(tree: Tree, before: readonly Answer[], proof: Proof, test: string): Proof | null {
  let { minutes, bench, made } = proof;
  for (let moves = 0; moves < MOST_MOVES; moves += 1) {
    const move = wayToTest(tree, { job: jobOf(tree, before, made), bench, passed: [] }, test, {
      kind: 'proof',
      finding: '',
    });
    if (move.kind === 'barred' || move.kind === 'no-way') return null;
    if (move.kind === 'change') {
      minutes += move.change.minutes;
      bench = { ...bench, [move.axis]: move.change.to };
    } else {
      minutes += tree.tests[move.test]?.minutes ?? Number.NaN;
      made = new Set([...made, move.test]);
      if (move.test === test) return { minutes, bench, made };
    }
  }
  throw new Error(`The way to ${test} does not end`);
}

function jobOf(tree: Tree, before: readonly Answer[], made: ReadonlySet<string>): JobState {
  const answers = [
    ...before.filter(({ test }) => !made.has(test)),
    ...[...made].map((test) => answered(tree, test, 1)),
  ];
  return { symptom: '', answers, skips: [], remedies: [], era: 1 };
}

/** The way to a test does not hang on what a reading was, only on there being one. */
function answered(tree: Tree, test: string, era: number): Answer {
  const [result = ''] = Object.keys(tree.tests[test]?.results ?? {});
  return { test, result, era, reading: { value: 1, typed: '1', accuracy: { percent: 0, constant: 0 } } };
}

/** What a test on the way gives is taken as allowed by every interlock; the proof's own tests give their first results. */
function suitingInterlocks(tree: Tree, prove: readonly string[]): Tree {
  const interlocks = tree.interlocks.map((interlock) => {
    const until = Object.entries(interlock.until).map(([test, allowed]) => [
      test,
      prove.includes(test) ? allowed : Object.keys(tree.tests[test]?.results ?? {}),
    ]);
    return { ...interlock, until: Object.fromEntries(until) };
  });
  return { ...tree, interlocks };
}
