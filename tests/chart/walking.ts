import {
  advance,
  referenceValue,
  standing,
  startWalk,
  type Chart,
  type JobEvent,
  type Reading,
  type Standing,
  type Walk,
} from '../../trees/chart/index.ts';
import { limitsOf, type Test } from '../../trees/document/index.ts';

/** A reading as an exact instrument would give it. */
export function reading(value: number | 'OL'): Reading {
  return { value, typed: String(value), accuracy: { percent: 0, constant: 0 } };
}

/** The answer to a measured test. */
export function measured(test: string, result: string, value: number | 'OL'): JobEvent {
  return { kind: 'answer', test, result, reading: reading(value) };
}

/** The walk after these events. Throws where one is refused, naming it. */
export function after(walk: Walk, ...events: readonly JobEvent[]): Walk {
  return events.reduce((now, event) => {
    const next = advance(now, event);
    if (!next.ok) throw new Error(`${JSON.stringify(event)}: ${next.refusal.code}: ${next.refusal.message}`);
    return next.walk;
  }, walk);
}

/** The code with which an event is refused; `taken` where it is not. */
export function refusalCode(walk: Walk, event: JobEvent): string {
  const next = advance(walk, event);
  return next.ok ? 'taken' : next.refusal.code;
}

/** What must come out the same whenever two walks are in the same state. */
export function stateOf(walk: Walk): {
  readonly value: unknown;
  readonly context: unknown;
  readonly standing: Standing;
} {
  return { value: walk.snapshot.value, context: walk.snapshot.context, standing: standing(walk) };
}

/** An answer with this result, measured (in the middle of its band) where the test is; null where no reading can be in it. */
export function answerWith(
  walk: Walk,
  id: string,
  result: string,
  kind: 'answer' | 'correct' = 'answer',
): JobEvent | null {
  const test = walk.chart.tree.tests[id];
  if (test === undefined) return null;
  if (test.reading === undefined) return { kind, test: id, result };
  const value = valueIn(test, result, referenceValue(walk.chart.tree, walk.snapshot.context.job, id));
  return value === null ? null : { kind, test: id, result, reading: reading(value) };
}

/** Follows the acts shown: changeovers are made, tests answered by `choose` (a place among their results), until another kind of act. */
export function follow(walk: Walk, choose: (test: string) => number, limit = 200): Walk {
  let now = walk;
  for (let count = 0; count < limit; count += 1) {
    const { act } = standing(now);
    if (act.kind === 'change') now = after(now, { kind: 'change', axis: act.axis, to: act.change.to });
    else if (act.kind === 'test') {
      const results = Object.keys(now.chart.tree.tests[act.test]?.results ?? {});
      const event = answerWith(now, act.test, results[choose(act.test) % results.length] ?? '');
      if (event === null) return now;
      const next = advance(now, event);
      if (!next.ok) return now;
      now = next.walk;
    } else return now;
  }
  throw new Error(`The acts shown do not come to an end: ${JSON.stringify(now.trail.slice(-6))}`);
}

export type Dice = readonly [number, number, number, number];

const BACKS: readonly JobEvent[] = [
  { kind: 'give-up-remedy', reason: 'random' },
  { kind: 'turn-back' },
  { kind: 'remedy-done' },
];

/** A random event, most often one that may be taken here: the numbers say which. */
export function drawEvent(walk: Walk, [kind, one, two, three]: Dice): JobEvent {
  const { tree } = walk.chart;
  const now = standing(walk);
  const tests = Object.keys(tree.tests);
  const findings = [...Object.keys(tree.findings), 'unlisted'];
  const test = now.act.kind === 'test' && two % 4 !== 0 ? now.act.test : nth(tests, one);
  const results = Object.keys(tree.tests[test]?.results ?? {});
  const result = three % 3 === 0 ? nth(results, one) : (results[0] ?? '');
  const kinds = [
    'act',
    'act',
    'act',
    'act',
    'answer',
    'answer',
    'correct',
    'settle',
    'skip',
    'turn-to',
    'change',
    'remedy',
    'back',
    'close',
    'take-back',
  ];
  switch (nth(kinds, kind)) {
    case 'act':
      return actEvent(walk, now, result, three) ?? { kind: 'turn-to', test };
    case 'answer':
      return answerWith(walk, test, nth(results, three)) ?? { kind: 'answer', test, result };
    case 'correct':
      return correctEvent(walk, now, one, three) ?? { kind: 'correct', test, result };
    case 'settle':
      return { kind: 'settle', result: three % 3 === 0 ? null : nth(results, two) };
    case 'skip': {
      const skipped =
        now.step === null ? test : (tree.symptoms[now.step.symptom]?.steps[now.step.step]?.test ?? test);
      const skip: JobEvent = { kind: 'skip', test: skipped, reason: 'random' };
      return kind % 2 === 0
        ? skip
        : { ...skip, as: nth(Object.keys(tree.tests[skipped]?.results ?? {}), three) };
    }
    case 'turn-to':
      return { kind: 'turn-to', test: nth(tests, one) };
    case 'change':
      return changeEvent(walk, one, two);
    case 'remedy': {
      const finding = nth(findings, one);
      return finding === 'unlisted'
        ? { kind: 'start-remedy', finding, what: `cause ${String(two % 2)}` }
        : { kind: 'start-remedy', finding };
    }
    case 'back':
      return nth(BACKS, now.act.kind === 'remedy' ? 0 : two);
    case 'close':
      return { kind: 'close', outcome: three % 2 === 0 || one % 4 !== 0 ? 'fixed' : 'declined' };
    default:
      return { kind: 'take-back' };
  }
}

/** Walks a random way and gives every walk on it. */
export function wander(
  chart: Chart,
  symptom: string,
  throws: readonly Dice[],
): readonly { walk: Walk; event?: JobEvent }[] {
  const ways: { walk: Walk; event?: JobEvent }[] = [{ walk: startWalk(chart, symptom) }];
  for (const dice of throws) {
    const walk = ways.at(-1)?.walk ?? startWalk(chart, symptom);
    const event = drawEvent(walk, dice);
    const next = advance(walk, event);
    if (next.ok) ways.push({ walk: next.walk, event });
  }
  return ways;
}

/** The event that does the act shown. */
export function actEvent(walk: Walk, { act, job }: Standing, result: string, dice: number): JobEvent | null {
  switch (act.kind) {
    case 'change':
      return { kind: 'change', axis: act.axis, to: act.change.to };
    case 'test':
      return answerWith(walk, act.test, result);
    case 'finding':
      return { kind: 'start-remedy', finding: act.finding };
    case 'remedy':
      return { kind: 'remedy-done' };
    case 'contradiction':
      return { kind: 'settle', result: dice % 3 === 0 ? null : (job.contradiction?.result ?? null) };
    case 'mended':
      return { kind: 'close', outcome: 'fixed' };
    case 'adrift':
    case 'barred':
    case 'closed':
      return null;
  }
}

function correctEvent(walk: Walk, { job }: Standing, one: number, three: number): JobEvent | null {
  const test = job.answers.length === 0 ? undefined : nth(job.answers, one).test;
  if (test === undefined) return null;
  return answerWith(
    walk,
    test,
    nth(Object.keys(walk.chart.tree.tests[test]?.results ?? {}), three),
    'correct',
  );
}

function changeEvent(walk: Walk, one: number, two: number): JobEvent {
  const axes = Object.entries(walk.chart.tree.bench);
  if (axes.length === 0) return { kind: 'change', axis: 'none', to: 'none' };
  const [axis, { states }] = nth(axes, one);
  return { kind: 'change', axis, to: nth(Object.keys(states), two) };
}

function valueIn(test: Test, result: string, reference: number | 'OL' | undefined): number | null {
  const found = reference === 'OL' ? null : limitsOf(test, reference);
  const band = found?.ok ? found.limits.find((limits) => limits.result === result) : undefined;
  if (band === undefined) return null;
  if (band.from === -Infinity) return band.to === Infinity ? 1 : band.to - 1;
  return band.to === Infinity ? band.from + 1 : (band.from + band.to) / 2;
}

function nth<T>(list: readonly T[], place: number): T {
  const found = list[place % list.length];
  if (found === undefined) throw new Error('Nothing to draw from.');
  return found;
}
