import { referenceOf } from '../../trees/document/index.ts';
import { beliefIn, chance, chanceOf, type Belief } from './reference-plan-belief.ts';
import { changedOver, madeSafe, proved, type Moved, type Proof } from './reference-plan-moves.ts';
import {
  firstState,
  isOpener,
  without,
  written,
  type ReferenceQuestion,
  type State,
} from './reference-plan-state.ts';

export type { ReferenceQuestion } from './reference-plan-state.ts';

export interface ReferencePlan {
  /** The least expected minutes over all policies. */
  readonly total: number;
  /** The least expected minutes if this act goes first, by `test:ID`, `remedy:ID` or `pass-on`; empty at the end. */
  readonly acts: ReadonlyMap<string, number>;
}

/** One act that is possible in a state: what it costs whatever comes of it, and what may come. */
interface Act {
  readonly name: string;
  readonly minutes: number;
  readonly outcomes: readonly Outcome[];
}

interface Outcome {
  readonly probability: number;
  readonly minutes: number;
  /** Null where the work is at its end. */
  readonly next: State | null;
}

/**
 * The least expected minutes over every policy there is, by going down every history, as the definition has it: nothing is
 * bounded, pruned or merged, only a state that was met before is not gone through again. What the planner is held against.
 */
export function referencePlan(question: ReferenceQuestion): ReferencePlan {
  const values = new Map<string, number>();
  const valueOf = (state: State): number => {
    const key = written(question, state);
    const known = values.get(key);
    if (known !== undefined) return known;
    const value = hasEnded(question, state)
      ? 0
      : Math.min(...actsIn(question, state).map((act) => totalOf(act)));
    values.set(key, value);
    return value;
  };
  const totalOf = ({ minutes, outcomes }: Act): number => {
    let total = minutes;
    for (const { probability, minutes: after, next } of outcomes) {
      total += probability * (after + (next === null ? 0 : valueOf(next)));
    }
    return total;
  };
  const first = firstState(question);
  const acts = hasEnded(question, first) ? [] : actsIn(question, first);
  return { total: valueOf(first), acts: new Map(acts.map((act) => [act.name, totalOf(act)])) };
}

/**
 * Whether an act changes nothing but the minutes: a test that moves no belief, not even once a remedy has disturbed what is known,
 * opens nothing and is no ratio's reference; or the remedy of a finding that only the tail of a reading's doubt leaves possible.
 */
export function isPointless(question: ReferenceQuestion, act: string): boolean {
  const { model, goal } = question;
  const { tree } = model;
  const first = firstState(question);
  const [kind, id = ''] = act.split(':');
  if (kind === 'remedy') return (beliefIn(question, first).get(id) ?? 0) < 1e-9;
  const isReference = Object.values(tree.tests).some((other) => referenceOf(other) === id);
  if (kind !== 'test' || isReference || isOpener(tree, id)) return false;
  const belief = beliefIn(question, { ...first, results: new Map() });
  const forgets =
    goal === 'fix' &&
    Object.entries(tree.findings).some(
      ([finding, { remedy }]) => remedy.disturbs.length > 0 && (belief.get(finding) ?? 0) > 0,
    );
  return !canMove(model, forgets ? belief : beliefIn(question, first), id);
}

/** Goal isolate: a finding is settled, or nothing that is left to test can move the belief. Goal fix ends by its acts only. */
function hasEnded(question: ReferenceQuestion, state: State): boolean {
  if (question.goal === 'fix') return false;
  const belief = beliefIn(question, state);
  if (Math.max(...belief.values()) >= question.model.tree.defaults.settled - 1e-9) return true;
  // Made again, a test gives what it gave, so that only those without a result can move anything.
  const left = [...testsLeft(question, state, new Set())].filter((test) => !state.results.has(test));
  return !left.some((test) => canMove(question.model, belief, test));
}

/** The tests that are possible now or in any state that tests can lead to from here. */
function testsLeft(question: ReferenceQuestion, state: State, met: Set<string>): Set<string> {
  const left = new Set<string>();
  const key = written(question, state);
  if (met.has(key)) return left;
  met.add(key);
  for (const test of Object.keys(question.model.tree.tests)) {
    const act = testAct(question, state, test);
    if (act === null) continue;
    left.add(test);
    for (const { next } of act.outcomes) {
      if (next !== null) testsLeft(question, next, met).forEach((later) => left.add(later));
    }
  }
  return left;
}

function canMove(model: ReferenceQuestion['model'], belief: Belief, test: string): boolean {
  const possible = model.findings.filter((finding) => (belief.get(finding) ?? 0) > 0);
  return model.test(test).results.some((result) => {
    const chances = possible.map((finding) => chance(model, test, finding, result));
    return Math.max(...chances) > 0 && Math.max(...chances) - Math.min(...chances) > 1e-12;
  });
}

function actsIn(question: ReferenceQuestion, state: State): readonly Act[] {
  const { tree } = question.model;
  const tests = Object.keys(tree.tests).flatMap((test) => testAct(question, state, test) ?? []);
  if (question.goal === 'isolate') return tests;
  const remedies = Object.keys(tree.findings).flatMap((finding) => remedyAct(question, state, finding) ?? []);
  const end = { probability: 1, minutes: 0, next: null };
  const passOn = { name: 'pass-on', minutes: tree.defaults.escalate, outcomes: [end] };
  return [...tests, ...remedies, passOn];
}

/** A test made for the first time, or again for an interlock's sake; null where it is not possible. */
function testAct(question: ReferenceQuestion, state: State, id: string): Act | null {
  const { model, job } = question;
  const test = model.tree.tests[id];
  if (test === undefined) return null;
  const isAgain = state.results.has(id);
  if (isAgain && (!isOpener(model.tree, id) || state.fresh.has(id))) return null;
  if (!isAgain && job.skips.some((skip) => skip.test === id)) return null;
  const reference = referenceOf(test);
  if (reference !== undefined && !state.results.has(reference)) return null;
  const moved = changedOver(model.tree, state, test.needs);
  if (moved === null) return null;
  const belief = beliefIn(question, state);
  const after = (result: string) => safely(question, resultGiven(question, state, moved, id, result));
  const known = state.results.get(id);
  const outcomes =
    known !== undefined
      ? [{ probability: 1, ...after(known) }]
      : Object.keys(test.results).flatMap((result) => {
          const probability = chanceOf(model, belief, id, result);
          return probability > 0 ? [{ probability, ...after(result) }] : [];
        });
  return { name: `test:${id}`, minutes: moved.minutes + test.minutes, outcomes };
}

function resultGiven(
  { model }: ReferenceQuestion,
  state: State,
  { bench }: Moved,
  id: string,
  result: string,
): State {
  return {
    ...state,
    results: new Map([...state.results, [id, result]]),
    fresh: isOpener(model.tree, id) ? new Set([...state.fresh, id]) : state.fresh,
    vouched: without(state.vouched, (test) => test === id),
    bench,
  };
}

function safely({ model }: ReferenceQuestion, state: State): { minutes: number; next: State } {
  const { minutes, bench } = madeSafe(model.tree, state);
  return { minutes, next: { ...state, bench } };
}

/** A remedy with its proof, which is made in full whether or not it is passed; null where it is not possible. */
function remedyAct(question: ReferenceQuestion, state: State, finding: string): Act | null {
  const { model } = question;
  const { tree } = model;
  const remedy = tree.findings[finding]?.remedy;
  const belief = beliefIn(question, state).get(finding) ?? 0;
  if (remedy === undefined || state.tried.has(finding) || belief === 0) return null;
  const moved = changedOver(tree, state, remedy.needs);
  if (moved === null) return null;
  const isDisturbed = (test: string) => remedy.disturbs.includes(test);
  const done = safely(question, {
    results: new Map([...state.results].filter(([test]) => !isDisturbed(test))),
    given: without(state.given, isDisturbed),
    fresh: new Set(),
    vouched: new Set(),
    tried: new Set([...state.tried, finding]),
    bench: moved.bench,
  });
  const proof = proved(tree, done.next.results.keys(), done.next.bench, proofOf(question, state, finding));
  const failed = safely(question, proofFailed(question, done.next, proof));
  const minutes =
    moved.minutes + remedy.minutes + partsMinutes(question, finding) + done.minutes + proof.minutes;
  const mends = belief * model.fixRate(finding);
  const outcomes = [
    { probability: mends, minutes: 0, next: null },
    { probability: 1 - mends, ...failed },
  ];
  return {
    name: `remedy:${finding}`,
    minutes,
    outcomes: outcomes.filter(({ probability }) => probability > 0),
  };
}

/** Where the finding names no proof: the tests whose result was not a sound unit's. */
function proofOf({ model }: ReferenceQuestion, state: State, finding: string): readonly string[] {
  const named = model.tree.findings[finding]?.prove ?? [];
  if (named.length > 0) return named;
  return Object.entries(model.tree.tests).flatMap(([test, { results }]) => {
    const result = state.results.get(test);
    return result === undefined || result === Object.keys(results)[0] ? [] : [test];
  });
}

function partsMinutes({ model, rate }: ReferenceQuestion, finding: string): number {
  if (rate === null) return 0;
  const parts = model.tree.findings[finding]?.remedy.parts ?? [];
  return parts.reduce((sum, { price }) => sum + (price * 60) / rate, 0);
}

/** An interlock's test made in the proof counts as made, unless what still stands for it is not allowed somewhere. */
function proofFailed({ model }: ReferenceQuestion, state: State, { bench, made }: Proof): State {
  const openers = [...made].filter((test) => isOpener(model.tree, test));
  const fresh = openers.filter((test) => {
    const result = state.results.get(test);
    return (
      result === undefined ||
      model.tree.interlocks.every(({ until }) => !Object.hasOwn(until, test) || until[test]?.includes(result))
    );
  });
  const vouched = fresh.filter((test) => !state.results.has(test));
  return { ...state, fresh: new Set(fresh), vouched: new Set(vouched), bench };
}
