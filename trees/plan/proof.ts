import { firstSituation, wayToTest, type Answer, type Reading, type Situation } from '../chart/index.ts';
import { own, UNLISTED, type Interlock, type Tree } from '../document/index.ts';
import { resultAt } from './marks.ts';
import { changeOver, changeoverMinutes, stateAt } from './position.ts';
import type { PlanRemedy, Problem } from './problem.ts';

/** What a remedy's proof takes, and how it leaves the bench. */
export interface Proof {
  readonly minutes: number;
  /** State by axis. */
  readonly bench: readonly number[];
  /** Tests made in it, by number. */
  readonly made: readonly number[];
}

/** Proofs by what they depend on. */
type ProofsKnown = Map<string, Proof>;

const proofsOfTrees = new WeakMap<Tree, ProofsKnown>();

function proofsOf(tree: Tree): ProofsKnown {
  const known = proofsOfTrees.get(tree);
  if (known !== undefined) return known;
  const made: ProofsKnown = new Map();
  proofsOfTrees.set(tree, made);
  return made;
}

/**
 * The proof of a remedy just done, as the chart asks for it: changeovers, the tests of interlocks (all shut since the
 * remedy) and readings referred to on the way, each proof test; in full, each result as in a mended unit. A test that
 * cannot be come to is left out. Kept with the tree, since many plans come by the same ones. `before` are the marks before the remedy, `after` those after it.
 */
export function proofOf(problem: Problem, row: number, before: Uint16Array, after: Uint16Array): Proof {
  const remedy = problem.remedies[row];
  if (remedy === undefined) return { minutes: 0, bench: [], made: [] };
  const known = proofsOf(problem.tree);
  const key = keyOf(problem, remedy, before, after);
  const had = known.get(key);
  if (had !== undefined) return had;
  const prove = remedy.prove ?? unsoundTests(problem, before);
  const simple = problem.bench.locks.length === 0 && problem.references.length === 0;
  const made = simple ? plainProof(problem, prove, after) : walkedProof(problem, remedy, prove, after);
  known.set(key, made);
  return made;
}

function keyOf(
  problem: Problem,
  { finding, prove }: PlanRemedy,
  before: Uint16Array,
  after: Uint16Array,
): string {
  const bench = after.subarray(problem.tests.length + problem.remedies.length).join('.');
  const standing = problem.references.map((at) => Number(after[at] !== 0)).join('');
  return `${finding}/${bench}/${standing}/${prove === null ? unsoundTests(problem, before).join() : ''}`;
}

/** Tests whose standing result is not the one a sound unit gives. */
function unsoundTests({ tests }: Problem, marks: Uint16Array): readonly string[] {
  return tests.flatMap(({ id }, at) => (resultAt(marks[at] ?? 0) > 0 ? [id] : []));
}

function plainProof(problem: Problem, prove: readonly string[], after: Uint16Array): Proof {
  const marks = after.slice();
  const view = problem.bench.view([]);
  let minutes = 0;
  const made: number[] = [];
  for (const id of new Set(prove)) {
    const at = problem.tests.findIndex((test) => test.id === id);
    const test = problem.tests[at];
    if (test === undefined) continue;
    const changeovers = changeoverMinutes(problem, view, marks, test.needs);
    if (changeovers === Infinity) continue;
    minutes += changeovers + test.minutes;
    changeOver(problem, marks, test.needs);
    made.push(at);
  }
  return { minutes, bench: problem.bench.axes.map((_, axis) => stateAt(problem, marks, axis)), made };
}

/** A reading that stands for those the plan has not taken: the chart only asks whether there is one. */
const READING: Reading = { value: 1, typed: '1', accuracy: { percent: 0, constant: 0 } };
/** Eras: standing answers are from before the remedy. */
const BEFORE = 0;
const SINCE = 1;
/** No way to a test has so many moves; this only guards against a tree gone wrong. */
const MOST_MOVES = 500;

function walkedProof(
  problem: Problem,
  remedy: PlanRemedy,
  prove: readonly string[],
  after: Uint16Array,
): Proof {
  const { tree } = problem;
  let at = situationAfter(problem, remedy, prove, after);
  let minutes = 0;
  for (const proof of prove) {
    const walked = walkTo(tree, at, proof, prove, remedy.finding);
    if (walked === null) continue;
    minutes += walked.minutes;
    at = walked.at;
  }
  const made = at.job.answers.flatMap(({ test, era }) =>
    era === SINCE ? problem.tests.findIndex(({ id }) => id === test) : [],
  );
  const { states, axes } = problem.bench;
  return {
    minutes,
    bench: axes.map((axis, index) => (states[index] ?? []).indexOf(at.bench[axis] ?? '')),
    made: made.sort((a, b) => a - b),
  };
}

function situationAfter(
  problem: Problem,
  { finding }: PlanRemedy,
  prove: readonly string[],
  after: Uint16Array,
): Situation {
  const { tree, tests, bench, symptom } = problem;
  const first = firstSituation(tree, symptom);
  const answers = tests.flatMap(({ id }, at): Answer[] => {
    const result = Object.keys(tree.tests[id]?.results ?? {})[resultAt(after[at] ?? 0)];
    return result === undefined ? [] : [{ test: id, result, era: BEFORE, reading: READING }];
  });
  const proving = { finding, state: 'proving' as const, evidence: [], prove, proofs: [] };
  return {
    ...first,
    bench: Object.fromEntries(
      bench.axes.map((axis, index) => [axis, bench.states[index]?.[stateAt(problem, after, index)] ?? '']),
    ),
    job: { ...first.job, answers, remedies: [proving], era: SINCE },
  };
}

/** Makes one test of the proof with all that is on the way to it; null where it cannot be come to. */
function walkTo(
  tree: Tree,
  from: Situation,
  proof: string,
  prove: readonly string[],
  finding: string,
): { readonly at: Situation; readonly minutes: number } | null {
  let at = from;
  let minutes = 0;
  for (let turn = 0; turn < MOST_MOVES; turn += 1) {
    if (at.job.answers.some(({ test, era }) => test === proof && era === SINCE)) return { at, minutes };
    const move = wayToTest(tree, at, proof, { kind: 'proof', finding });
    if (move.kind === 'barred' || move.kind === 'no-way') return null;
    if (move.kind === 'change') {
      minutes += move.change.minutes;
      at = { ...at, bench: { ...at.bench, [move.axis]: move.change.to } };
      continue;
    }
    const purpose = move.purpose;
    // The proof's own tests give their first result, also where one of them opens an interlock.
    const opens = purpose.kind === 'interlock' && !prove.includes(move.test);
    const opened = opens ? tree.interlocks[purpose.interlock] : undefined;
    const allowed = opened === undefined ? undefined : allowedResult(tree, opened, move.test);
    minutes += tree.tests[move.test]?.minutes ?? 0;
    at = answered(at, move.test, allowed ?? Object.keys(tree.tests[move.test]?.results ?? {})[0] ?? UNLISTED);
  }
  return null;
}

/** A result that opens an interlock: one that all that wait for the test allow, if there is such a one. */
function allowedResult(tree: Tree, { until }: Interlock, test: string): string | undefined {
  const waiting = tree.interlocks.flatMap((interlock) => own(interlock.until, test) ?? []);
  const locks = tree.interlocks.filter((interlock) => own(interlock.until, test) !== undefined).length;
  const [first, ...others] = own(until, test) ?? [];
  return (
    [first, ...others].find((result) => waiting.filter((one) => one === result).length === locks) ?? first
  );
}

function answered(at: Situation, test: string, result: string): Situation {
  const others = at.job.answers.filter((answer) => answer.test !== test);
  const answer = { test, result, era: SINCE, reading: READING };
  return { ...at, job: { ...at.job, answers: [...others, answer] } };
}
