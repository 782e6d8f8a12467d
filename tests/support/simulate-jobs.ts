import { advance, compileChart, startWalk, type JobEvent, type Walk } from '../../trees/chart/index.ts';
import type { FaultModel } from '../../trees/belief/index.ts';
import type { Tree } from '../../trees/document/index.ts';
import type { Goal } from '../../trees/plan/question.ts';
import { seededRandom, type Random } from '../../main/services/demo/random.ts';
import { answerEvent, nextOf, type Next } from './technician.ts';

export interface Simulation {
  readonly model: FaultModel;
  /** The tree whose paths are walked; the model's own where absent. */
  readonly tree?: Tree;
  readonly symptom: string;
  readonly goal: Goal;
  readonly rate: number | null;
  readonly jobs: number;
  readonly seed: number;
}

/** Means over the jobs walked, with the standard errors of the minutes' mean. */
export interface Simulated {
  /** By job, in their order. */
  readonly minutes: Float64Array;
  readonly meanMinutes: number;
  readonly standardError: number;
  readonly meanTests: number;
  readonly meanChangeovers: number;
  /** Shares of the jobs, as in an evaluation. */
  readonly rightFinding: number;
  readonly wrongFix: number;
  readonly passedOn: number;
}

interface Job {
  minutes: number;
  tests: number;
  changeovers: number;
  end: 'right' | 'wrong' | 'passed-on';
}

/** A walk so far, what comes next, and the walks after it that jobs have come to already: most jobs go the same ways. */
interface Node {
  readonly walk: Walk;
  readonly next: Next;
  readonly after: Map<string, Node>;
}

/**
 * Draws units from a stated seed, each with a finding, and walks every one through the chart's own machine: test results
 * are drawn from the fault model while the unit has its finding, and are sound once a remedy has mended it. A unit gives
 * a test's first making, its second and so on the same results whatever the tree, so that two trees simulated from one seed
 * have the same units, and differ by far less chance than each has alone (common random numbers).
 */
export function simulateJobs(simulation: Simulation): Simulated {
  const { model, tree = model.tree, symptom, goal, rate, jobs, seed } = simulation;
  const node = (walk: Walk): Node => ({ walk, next: nextOf(walk, goal, rate), after: new Map() });
  const root = node(startWalk(compileChart(tree), symptom));
  const step = (from: Node, name: string, event: () => JobEvent): Node => {
    const known = from.after.get(name);
    if (known !== undefined) return known;
    const advanced = advance(from.walk, event());
    if (!advanced.ok) throw new Error(`${name}: ${advanced.refusal.message}`);
    const made = node(advanced.walk);
    from.after.set(name, made);
    return made;
  };
  const walked = Array.from({ length: jobs }, (_, job) =>
    walkJob(model, symptom, chances(seed, job), root, step),
  );
  return summary(walked);
}

/** Numbers for each thing that a job leaves to chance, by its name; those of one thing do not hang on how often others are drawn. */
function chances(seed: number, job: number): (name: string) => Random {
  const known = new Map<string, Random>();
  return (name) => {
    const random = known.get(name) ?? seededRandom(hash(`${String(seed)}/${String(job)}/${name}`));
    known.set(name, random);
    return random;
  };
}

/** FNV-1a, 32 bits (constants recalled), mixed once more: names that are nearly alike must not give numbers that are. */
function hash(text: string): number {
  let mixed = 0x811c9dc5;
  for (let at = 0; at < text.length; at += 1) mixed = Math.imul(mixed ^ text.charCodeAt(at), 0x01000193);
  mixed = Math.imul(mixed ^ (mixed >>> 16), 0x85ebca6b);
  return mixed ^ (mixed >>> 13);
}

function walkJob(
  model: FaultModel,
  symptom: string,
  chance: (name: string) => Random,
  root: Node,
  step: (from: Node, name: string, event: () => JobEvent) => Node,
): Job {
  const finding = chance('finding').choose(model.findings, model.prior(symptom).probability);
  const job: Job = { minutes: 0, tests: 0, changeovers: 0, end: 'passed-on' };
  let isMended = false;
  let at = root;
  for (;;) {
    const { next, walk } = at;
    job.minutes += next.minutes;
    switch (next.kind) {
      case 'end':
        if (next.at !== 'pass-on')
          job.end = (next.at === 'fixed' ? isMended : next.id === finding) ? 'right' : 'wrong';
        return job;
      case 'test': {
        const result = isMended
          ? next.sound
          : drawResult(model, next.test, finding, chance(`test ${next.test}`));
        job.tests += 1;
        at = step(at, result, () => answerEvent(walk, next.test, result));
        break;
      }
      case 'do':
        if (next.what === 'changeover') job.changeovers += 1;
        if (next.what === 'remedy' && next.id === finding && chance('mends').happens(model.fixRate(finding)))
          isMended = true;
        at = step(at, 'do', () => next.event);
    }
  }
}

function drawResult(model: FaultModel, test: string, finding: string, random: Random): string {
  const { results, probability } = model.test(test);
  const row = model.row(finding) * results.length;
  return random.choose(results, probability.subarray(row, row + results.length));
}

function summary(jobs: readonly Job[]): Simulated {
  const mean = (value: (job: Job) => number) => jobs.reduce((sum, job) => sum + value(job), 0) / jobs.length;
  const meanMinutes = mean(({ minutes }) => minutes);
  const variance = mean(({ minutes }) => (minutes - meanMinutes) ** 2) * (jobs.length / (jobs.length - 1));
  return {
    minutes: Float64Array.from(jobs, ({ minutes }) => minutes),
    meanMinutes,
    standardError: Math.sqrt(variance / jobs.length),
    meanTests: mean(({ tests }) => tests),
    meanChangeovers: mean(({ changeovers }) => changeovers),
    rightFinding: mean(({ end }) => (end === 'right' ? 1 : 0)),
    wrongFix: mean(({ end }) => (end === 'wrong' ? 1 : 0)),
    passedOn: mean(({ end }) => (end === 'passed-on' ? 1 : 0)),
  };
}
