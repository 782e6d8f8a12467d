import {
  advance,
  compileChart,
  standing,
  startWalk,
  type JobEvent,
  type Walk,
} from '../../trees/chart/index.ts';
import type { FaultModel } from '../../trees/belief/index.ts';
import { destination, type Tree } from '../../trees/document/index.ts';
import type { Goal } from '../../trees/plan/question.ts';
import { answerEvent, nextOf } from './technician.ts';

/** What an enumeration finds, in the terms of an evaluation; `null` where the tree has more ways than were allowed. */
export interface Enumerated {
  minutes: number;
  tests: number;
  changeovers: number;
  right: number;
  wrong: number;
  passedOn: number;
  /** Minutes by `kind id`. */
  readonly byItem: Map<string, number>;
  /** Sum of positions among the tests made and times made, by test. */
  readonly places: Map<string, { sum: number; made: number }>;
  readonly ends: Map<string, number>;
  /** To isolate: units that come to a step, by `symptom/step`, and that go along a branch, by `symptom/step/result`. */
  readonly came: Map<string, number>;
  readonly passed: Map<string, number>;
}

/** A unit of a finding, mended or not, and how many of one unit are such. */
interface Share {
  readonly finding: string;
  readonly isMended: boolean;
  readonly amount: number;
}

/**
 * What walking a tree costs, by walking the chart's own machine through every outcome for every finding, one event at a
 * time, without merging anything. Slow, and a check on the evaluation by being another way to the same figures.
 */
export function enumerateJobs(
  {
    model,
    tree = model.tree,
    symptom,
    goal,
    rate,
  }: {
    readonly model: FaultModel;
    readonly tree?: Tree;
    readonly symptom: string;
    readonly goal: Goal;
    readonly rate: number | null;
  },
  mostEvents: number,
): Enumerated | null {
  const found: Enumerated = {
    minutes: 0,
    tests: 0,
    changeovers: 0,
    right: 0,
    wrong: 0,
    passedOn: 0,
    byItem: new Map(),
    places: new Map(),
    ends: new Map(),
    came: new Map(),
    passed: new Map(),
  };
  let events = 0;
  const moved = (walk: Walk, event: JobEvent): Walk => {
    events += 1;
    const next = advance(walk, event);
    if (!next.ok) throw new Error(`${JSON.stringify(event)}: ${next.refusal.message}`);
    return next.walk;
  };
  const visit = (walk: Walk, shares: readonly Share[], made: number): void => {
    if (events > mostEvents) return;
    const next = nextOf(walk, goal, rate);
    const amount = shares.reduce((sum, share) => sum + share.amount, 0);
    found.minutes += amount * next.minutes;
    if (next.kind === 'end') {
      if (next.minutes > 0) add(found.byItem, 'pass-on pass-on', amount * next.minutes);
      add(found.ends, next.id, amount);
      if (goal === 'isolate')
        for (const { step, result } of stepsGone(walk)) {
          add(found.came, step, amount);
          if (result !== null) add(found.passed, `${step}/${result}`, amount);
        }
      for (const share of shares) {
        if (next.at === 'pass-on') found.passedOn += share.amount;
        else if (next.at === 'fixed' ? share.isMended : share.finding === next.id)
          found.right += share.amount;
        else found.wrong += share.amount;
      }
    } else if (next.kind === 'test') {
      found.tests += amount;
      add(found.byItem, `test ${next.test}`, amount * next.minutes);
      const place = found.places.get(next.test) ?? { sum: 0, made: 0 };
      found.places.set(next.test, { sum: place.sum + amount * (made + 1), made: place.made + amount });
      for (const result of Object.keys(walk.chart.tree.tests[next.test]?.results ?? {})) {
        const onward = shares
          .map((share) => ({
            ...share,
            amount:
              share.amount *
              (share.isMended
                ? Number(result === next.sound)
                : chance(model, next.test, share.finding, result)),
          }))
          .filter((share) => share.amount > 0);
        if (onward.length > 0) visit(moved(walk, answerEvent(walk, next.test, result)), onward, made + 1);
      }
    } else {
      if (next.what === 'changeover') found.changeovers += amount;
      if (next.what !== 'start') add(found.byItem, `${next.what} ${next.id}`, amount * next.minutes);
      const onward = next.what === 'remedy' ? mend(model, shares, next.id) : shares;
      visit(moved(walk, next.event), onward, made);
    }
  };
  const { probability } = model.prior(symptom);
  const units = model.findings.map((finding, row) => ({
    finding,
    isMended: false,
    amount: probability[row] ?? 0,
  }));
  visit(startWalk(compileChart(tree), symptom), units, 0);
  return events > mostEvents ? null : found;
}

/** The steps from the start of the path on that a job has come to, and by which result it has gone on. */
function stepsGone(walk: Walk): readonly { readonly step: string; readonly result: string | null }[] {
  const { tree } = walk.chart;
  const { job } = standing(walk);
  const gone: { step: string; result: string | null }[] = [];
  let place = destination(`symptom:${job.symptom}`, job.symptom);
  while (place.kind !== 'finding') {
    const { symptom } = place;
    const id: string = place.kind === 'step' ? place.step : (tree.symptoms[symptom]?.first ?? '');
    const step = tree.symptoms[symptom]?.steps[id];
    if (step === undefined) break;
    const answer = job.answers.find(({ test }) => test === step.test);
    gone.push({ step: `${symptom}/${id}`, result: answer?.result ?? null });
    if (answer === undefined) break;
    place = destination(step.then[answer.result]?.go ?? '', symptom);
  }
  return gone;
}

function chance(model: FaultModel, test: string, finding: string, result: string): number {
  const { results, probability } = model.test(test);
  return probability[model.row(finding) * results.length + results.indexOf(result)] ?? 0;
}

function mend(model: FaultModel, shares: readonly Share[], finding: string): readonly Share[] {
  const rate = model.fixRate(finding);
  return shares
    .flatMap((share) =>
      share.finding !== finding || share.isMended
        ? [share]
        : [
            { ...share, isMended: true, amount: share.amount * rate },
            { ...share, amount: share.amount * (1 - rate) },
          ],
    )
    .filter(({ amount }) => amount > 0);
}

function add(sums: Map<string, number>, key: string, amount: number): void {
  sums.set(key, (sums.get(key) ?? 0) + amount);
}
