import {
  advance,
  compileChart,
  standing,
  startWalk,
  type Act,
  type JobEvent,
  type Standing,
  type Walk,
} from '../../trees/chart/index.ts';
import type { Tree } from '../../trees/document/index.ts';
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
    const { act } = standing(course.walk);
    const next = left.size === 0 ? undefined : eventFor(act, left);
    if (next === undefined) return value({ ...course, unused: [...left.keys()] });
    const moved = advance(course.walk, next);
    if (!moved.ok) return trouble('EVENT_REFUSED', moved.refusal.message, moved.refusal.help);
    if (next.kind === 'answer') left.delete(next.test);
    course = { ...course, walk: moved.walk, way: [...course.way, ...doneBy(tree, act, next)] };
  }
}

/**
 * What to do at an act to get on with the tests that are left: the changeover, the test if it was given, else another
 * one out of order. Undefined where nothing but a test that was not given leads on.
 */
function eventFor(act: Act, left: ReadonlyMap<string, Given>): JobEvent | undefined {
  if (act.kind === 'change') return { kind: 'change', axis: act.axis, to: act.change.to };
  const asked = act.kind === 'test' ? left.get(act.test) : undefined;
  if (asked !== undefined) return answer(asked);
  const [next] = left.keys();
  const free =
    act.kind === 'finding' || act.kind === 'adrift' || (act.kind === 'test' && act.purpose.kind === 'path');
  return free && next !== undefined ? { kind: 'turn-to', test: next } : undefined;
}

function answer({ test, result, reading }: Given): JobEvent {
  return { kind: 'answer', test, result, ...(reading === undefined ? {} : { reading }) };
}

function doneBy(tree: Tree, act: Act, event: JobEvent): readonly Done[] {
  if (event.kind === 'change' && act.kind === 'change') {
    const { from, to, minutes, cautions } = act.change;
    return [{ kind: 'change', axis: act.axis, from, to, minutes, cautions }];
  }
  if (event.kind !== 'answer' || act.kind !== 'test') return [];
  const cautions = tree.tests[event.test]?.cautions ?? [];
  return [{ kind: 'test', test: event.test, result: event.result, why: act.purpose.kind, cautions }];
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
      : `${done.test}: ${done.result} (${done.why})`,
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
