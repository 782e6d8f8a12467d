import {
  advance,
  compileChart,
  referenceValue,
  standing,
  startWalk,
  type JobEvent,
  type Reading,
  type Standing,
  type Walk,
} from '../../trees/chart/index.ts';
import { readingWeights } from '../../trees/belief/index.ts';
import { limitsOf, type ResultLimits, type Tree } from '../../trees/document/index.ts';
import { treeAndSymptom } from './belief.ts';
import { texts, type Asked, type Command } from './command.ts';
import { readGiven, type Given } from './given.ts';
import { trouble, value, type Or, type Outcome } from './outcome.ts';

/** One thing done on the way to where the chart stands now. */
type Done =
  | {
      readonly kind: 'change';
      readonly axis: string;
      readonly from: string;
      readonly to: string;
      readonly minutes: number;
      readonly cautions: readonly string[];
    }
  | {
      readonly kind: 'test';
      readonly test: string;
      readonly result: string;
      readonly why: string;
      /** The reading lies so near a limit that no result has a weight of 0.95. */
      readonly tooClose: boolean;
      readonly cautions: readonly string[];
    };

interface Course {
  readonly walk: Walk;
  readonly way: readonly Done[];
  /** Given tests that the chart did not come to. */
  readonly unused: readonly string[];
}

/** `walk FILE`: makes the given tests as the chart asks for them and says where it stands, and what lay on the way. */
export const walk: Command = {
  usage: 'walk FILE --symptom ID [--given TEST=RESULT|TEST=READING]… [--json]',
  says: 'where the chart stands after the given tests, with the changeovers and interlocks on the way',
  options: { symptom: { type: 'string' }, given: { type: 'string', multiple: true } },
  run: async (asked) => {
    const found = walked(asked);
    return found.ok ? found.value : found.outcome;
  },
};

function walked(asked: Asked): Or<Outcome> {
  const named = treeAndSymptom(asked, walk.usage);
  if (!named.ok) return named;
  const { tree, symptom } = named.value;
  const given = readGiven(tree, texts(asked, 'given'));
  if (!given.ok) return given;
  const course = follow(
    { walk: startWalk(compileChart(tree), symptom), way: [], unused: [] },
    tree,
    given.value,
  );
  if (!course.ok) return course;
  return value(outcomeOf(tree, symptom, course.value));
}

/** Follows the chart as far as the given tests carry; one it does not ask for is then made out of order. */
function follow(start: Course, tree: Tree, given: readonly Given[]): Or<Course> {
  const left = new Map(given.map((one) => [one.test, one]));
  let course = start;
  for (;;) {
    const now = standing(course.walk);
    const next = left.size === 0 ? undefined : eventFor(tree, now, left);
    if (next === undefined) return value({ ...course, unused: [...left.keys()] });
    const moved = advance(course.walk, next);
    if (!moved.ok) return trouble('EVENT_REFUSED', moved.refusal.message, moved.refusal.help);
    if (next.kind === 'answer') left.delete(next.test);
    course = { ...course, walk: moved.walk, way: [...course.way, ...doneBy(tree, now, next)] };
  }
}

/**
 * What to do at an act to get on with the tests that are left: the changeover, the test if it was given, else another
 * one out of order. Undefined where nothing but a test that was not given leads on.
 */
function eventFor(tree: Tree, now: Standing, left: ReadonlyMap<string, Given>): JobEvent | undefined {
  const { act } = now;
  if (act.kind === 'change') return { kind: 'change', axis: act.axis, to: act.change.to };
  const asked = act.kind === 'test' ? left.get(act.test) : undefined;
  if (asked !== undefined) return answer(tree, now, asked);
  const [next] = left.keys();
  const free =
    act.kind === 'finding' || act.kind === 'adrift' || (act.kind === 'test' && act.purpose.kind === 'path');
  return free && next !== undefined ? { kind: 'turn-to', test: next } : undefined;
}

function answer(tree: Tree, now: Standing, { test, result, reading }: Given): JobEvent {
  const taken = reading ?? readingWithin(tree, now, test, result);
  return { kind: 'answer', test, result, ...(taken === undefined ? {} : { reading: taken }) };
}

/** The chart takes a measured test's answer only with a reading; where a result was given, one from inside its band stands for it. */
function readingWithin(tree: Tree, now: Standing, id: string, result: string): Reading | undefined {
  const test = tree.tests[id];
  if (test?.reading === undefined) return undefined;
  const found = limitsOf(test, referenceNow(tree, now, id));
  const limits = found.ok ? found.limits.find((one) => one.result === result) : undefined;
  if (limits === undefined) return undefined;
  const value = inside(limits);
  return { value, typed: String(value).slice(0, 40), accuracy: { percent: 0, constant: 0 } };
}

function referenceNow(tree: Tree, { job }: Standing, test: string): number | undefined {
  const value = referenceValue(tree, job, test);
  return typeof value === 'number' ? value : undefined;
}

function inside({ from, to }: ResultLimits): number {
  if (from > -Infinity && to < Infinity) return (from + to) / 2;
  if (to < Infinity) return to > 0 ? to / 2 : 2 * to - 1;
  return from > 0 ? 2 * from : 1;
}

function doneBy(tree: Tree, now: Standing, event: JobEvent): readonly Done[] {
  const { act } = now;
  if (event.kind === 'change' && act.kind === 'change') {
    const { from, to, minutes, cautions } = act.change;
    return [{ kind: 'change', axis: act.axis, from, to, minutes, cautions }];
  }
  if (event.kind !== 'answer' || act.kind !== 'test') return [];
  const { test: id, result, reading } = event;
  const test = tree.tests[id];
  const weighed =
    test === undefined || reading === undefined
      ? undefined
      : readingWeights(test, reading, referenceNow(tree, now, id));
  const tooClose = weighed?.ok === true && weighed.tooClose;
  return [
    { kind: 'test', test: id, result, why: act.purpose.kind, tooClose, cautions: test?.cautions ?? [] },
  ];
}

function outcomeOf(tree: Tree, symptom: string, { walk: at, way, unused }: Course): Outcome {
  const now = standing(at);
  const interlocks = tree.interlocks.map(({ change, until, because }, index) => ({
    change,
    until,
    because,
    state: now.interlocks[index] ?? 'barred',
  }));
  const json = { symptom, stands: actJson(now), bench: now.bench, interlocks, way, unused };
  return { status: 0, text: asText(tree, now, way, unused), json };
}

function actJson({ act, step }: Standing) {
  if (act.kind === 'change') {
    const { axis, change, after, wanted } = act;
    return {
      kind: act.kind,
      axis,
      from: change.from,
      to: change.to,
      cautions: change.cautions,
      then: after.map((next) => ({ axis: next.axis, to: next.change.to })),
      wanted,
      step,
    };
  }
  return { ...act, step };
}

function asText(tree: Tree, now: Standing, way: readonly Done[], unused: readonly string[]): string {
  const lines = way.flatMap((done) => [
    done.kind === 'change'
      ? `changed ${done.axis}: ${done.from} to ${done.to}`
      : `${done.test}: ${done.result} (${done.why})${done.tooClose ? ', too close to call' : ''}`,
    ...done.cautions.map((caution) => `  caution: ${caution}`),
  ]);
  const barred = tree.interlocks.flatMap(({ change, because }, index) =>
    now.interlocks[index] === 'open'
      ? []
      : [
          `barred: ${Object.entries(change)
            .map(([axis, to]) => `${axis} ${to}`)
            .join(', ')}: ${because}`,
        ],
  );
  const idle = unused.length === 0 ? [] : [`not come to: ${unused.join(', ')}`];
  return [...lines, ...barred, ...idle, `stands at ${describe(now)}`].join('\n');
}

function describe({ act, step }: Standing): string {
  const place = step === null ? '' : ` (step ${step.symptom}/${step.step})`;
  switch (act.kind) {
    case 'change':
      return `a changeover: ${act.axis} from ${act.change.from} to ${act.change.to}${place}`;
    case 'test':
      return `the test ${act.test}, asked as ${act.purpose.kind}${place}`;
    case 'contradiction':
      return `a contradiction about ${act.test}`;
    case 'finding':
    case 'remedy':
    case 'mended':
      return `${act.kind} ${act.finding}`;
    case 'barred':
      return `an interlock that does not open: number ${act.interlock + 1}`;
    case 'adrift':
      return `the end of the path (${act.because})`;
    case 'closed':
      return `closed: ${act.outcome}`;
  }
}
