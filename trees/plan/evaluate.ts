import type { FaultModel } from '../belief/index.ts';
import type { Tree } from '../document/index.ts';
import { ambiguityGroups } from './evaluate-ambiguity.ts';
import { startSweep, type SweepLimits } from './evaluate-sweep.ts';
import { openTally, type Item, type Tally } from './evaluate-tally.ts';
import { openTraffic, type StepTraffic } from './evaluate-traffic.ts';
import { worldOf, type World } from './evaluate-world.ts';
import type { Goal } from './question.ts';

/** What to evaluate: a tree's path for one symptom, in the world that a fault model describes. */
export interface EvaluateQuestion {
  readonly model: FaultModel;
  /** The tree whose paths are walked; the model's own where absent. It may differ from that one only in its paths. */
  readonly tree?: Tree;
  readonly symptom: string;
  readonly goal: Goal;
  /** The shop's hourly rate, in the currency of the parts' prices; null: parts do not count. */
  readonly rate: number | null;
}

/** What a tree costs as it stands. Probabilities are of all units that come with the symptom. */
export interface Evaluation {
  readonly expectedMinutes: number;
  readonly expectedTests: number;
  readonly expectedChangeovers: number;
  /** isolate: ends at the finding that the unit has. fix: mended, and closed as fixed. */
  readonly rightFinding: number;
  /** isolate: ends at another finding. fix: closed as fixed though not mended, its proof passed by chance. */
  readonly wrongFix: number;
  /** Neither: passed on, or at the end of a path without a finding. The three sum to one. */
  readonly passedOn: number;
  /** Where jobs end, by the finding come to (isolate) or closed as fixed (fix), most likely first. They sum to one. */
  readonly ends: readonly { readonly finding: string; readonly probability: number }[];
  /** Findings, two or more, that no test met on the way tells apart. */
  readonly ambiguityGroups: readonly (readonly string[])[];
  /** Expected minutes by what is done, most first; they add up to `expectedMinutes`. */
  readonly byItem: readonly Item[];
  /** Probability of what was cut off, past the most states that are looked into, and counted as passed on. */
  readonly unexplored: number;
  /** Probability of the jobs that others like them stood for, being on ways too unlikely to be followed one by one. */
  readonly stoodFor: number;
}

/**
 * Of states less likely than this some stand for the others. An evaluation to isolate comes to few; one to fix to very
 * many, as each proof that fails sets the course out anew.
 */
const SMALLEST: Readonly<Record<Goal, number>> = { isolate: 1e-9, fix: 1e-4 };
/** No more states than this are looked into. */
const MOST_STATES = 250_000;

/**
 * What a tree costs as it stands: its path for a symptom walked through every outcome exactly as the chart walks it, with
 * the probabilities of the fault model.
 *
 * A unit has finding f with the prior P(f|s), `unlisted` among them; every making of a test draws its result afresh from
 * P(r|f,t). The technician does the one act shown: changeovers, tests of interlocks and references on the way, the path's
 * tests. At a finding the goal `isolate` ends; `fix` does the remedy (parts count price x 60 / rate minutes) and its proof,
 * and goes on as the chart does where the proof fails. A remedy mends a unit that has its finding with the finding's fix
 * rate. It is assumed that a mended unit gives every test's first result, and to an interlock's test the first that is
 * allowed; one that is not mended still has its finding. Where the chart has no more to say (adrift, barred, no path)
 * `fix` passes the unit on, which costs the tree's `escalate` minutes; `isolate` ends there without a finding, at no cost.
 * No test is asked twice between two remedies, so that no contradiction can arise.
 *
 * Exact where `stoodFor` and `unexplored` are 0: elsewhere, of the states with a probability below 1e-9 (`isolate`) or
 * 1e-4 (`fix`), some stand for others like them, which leaves the expected minutes true to a few parts in a thousand (see
 * tests/plan/evaluate-shipped.test.ts). What is past 250,000 states is counted as passed on, at `escalate` minutes. Throws
 * `unknown-symptom` where the model's tree has no such symptom.
 */
export function evaluate(question: EvaluateQuestion): Evaluation {
  return evaluateWithin(question, { smallest: SMALLEST[question.goal], states: MOST_STATES });
}

/** {@link evaluate} with other limits on what is looked into. */
export function evaluateWithin(question: EvaluateQuestion, limits: SweepLimits): Evaluation {
  const world = worldOf(question);
  const tally = openTally(world);
  startSweep(world, tally, limits)(Infinity);
  return evaluationOf(world, question, tally);
}

/** An evaluation made bit by bit: looks into about so many states more, and gives what there is in the end; null until then. */
export type Evaluating = (states: number) => Evaluation | null;

/** {@link evaluate} for those who have something else to do in between, and may never want the end of it. */
export function startEvaluation(question: EvaluateQuestion): Evaluating {
  const world = worldOf(question);
  const tally = openTally(world);
  const goOn = startSweep(world, tally, { smallest: SMALLEST[question.goal], states: MOST_STATES });
  return (states) => (goOn(states) ? null : evaluationOf(world, question, tally));
}

/**
 * The evaluation to isolate, and with it how many units come to each step and go along each branch on the way to their first
 * finding, those counted that an answer given earlier carries past. Steps of other symptoms' paths are among them; steps that
 * nothing comes to are not.
 */
export function evaluateTraffic(
  question: Omit<EvaluateQuestion, 'goal'>,
): Evaluation & { readonly traffic: readonly StepTraffic[] } {
  const world = { ...worldOf({ ...question, goal: 'isolate' }), tellsApart: true };
  const tally = openTally(world);
  const traffic = openTraffic(world);
  const limits = { smallest: SMALLEST.isolate, states: MOST_STATES };
  startSweep(world, tally, limits, traffic.passed)(Infinity);
  let told: readonly StepTraffic[] | null = null;
  return {
    ...evaluationOf(world, question, tally),
    // Long, and wanted later than the rest where somebody waits for that.
    get traffic() {
      return (told ??= traffic.result());
    },
  };
}

function evaluationOf(
  world: World,
  { symptom }: Pick<EvaluateQuestion, 'symptom'>,
  tally: Tally,
): Evaluation {
  const { testsMade, ...totals } = tally.result();
  return { ...totals, ambiguityGroups: ambiguityGroups(world.model, symptom, testsMade) };
}
