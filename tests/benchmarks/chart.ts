import {
  advance,
  compileChart,
  replay,
  standing,
  startWalk,
  toScxml,
  type Chart,
  type JobEvent,
  type Walk,
} from '../../trees/chart/index.ts';
import { initialTransition, setup, transition } from 'xstate';
import { LARGE_DEPTH, largeTree } from '../support/large-tree.ts';
import { medianMs, type Measure } from './measure.ts';

const ROUNDS = 21;

/**
 * Walking a tree of 300 tests and 2,000 steps, one hundred steps deep: an event, replaying a hundred of them, and a
 * correction of the first answer, which sets the course out anew; then the same with every tenth test left out, each of
 * which has the course look for where the path is met again. One event is compared with XState's own pure transition
 * of a machine of two states, which is the least that any event can cost.
 */
export default async function (): Promise<Measure[]> {
  const tree = largeTree();
  const chart = compileChart(tree);
  const { walk, events, times } = walkDown(chart);
  const least = leastTransition();
  const event = medianTime(times);
  const against = `a two-state machine's transition (${least.toFixed(4)} ms)`;
  const correction: JobEvent = { kind: 'correct', test: 'test-0', result: 'sound' };
  const replayed = medianMs(ROUNDS, () => replay(chart, 'symptom', events));
  return [
    { name: 'compile the chart', figure: medianMs(5, () => compileChart(tree)), unit: 'ms' },
    { name: 'advance by an answer, median', figure: event, unit: 'ms', limit: { atMost: 1 } },
    {
      name: 'advance / least transition',
      figure: event / least,
      unit: 'times',
      limit: { atMost: 60 },
      against,
    },
    { name: `replay ${String(events.length)} events`, figure: replayed, unit: 'ms', limit: { atMost: 100 } },
    {
      name: 'replay / as many events one by one',
      figure: replayed / times.reduce((sum, { ms }) => sum + ms, 0),
      unit: 'times',
      limit: { atMost: 2 },
      against: 'advancing event by event in the same run',
    },
    {
      name: 'correct the first of a hundred answers',
      figure: medianMs(ROUNDS, () => advance(walk, correction)),
      unit: 'ms',
      limit: { atMost: 20 },
    },
    ...leavingOut(chart, correction),
    { name: 'standing', figure: medianMs(ROUNDS, () => standing(walk)), unit: 'ms', limit: { atMost: 1 } },
    { name: 'SCXML of the tree', figure: medianMs(5, () => toScxml(tree)), unit: 'ms' },
  ];
}

/** The way down with every tenth test left out; the test of the step after it is turned to, and there the path is met again. */
function leavingOut(chart: Chart, correction: JobEvent): readonly Measure[] {
  const { walk, times } = walkDown(chart, leftOutEvent);
  const skips = times.filter(({ kind }) => kind === 'skip');
  const answers = times.filter(({ kind }) => kind === 'answer');
  const correct = medianMs(ROUNDS, () => advance(walk, correction));
  return [
    { name: 'leave a test out, median', figure: medianTime(skips), unit: 'ms', limit: { atMost: 1 } },
    {
      name: 'answer after tests left out, median',
      figure: medianTime(answers),
      unit: 'ms',
      limit: { atMost: 2 },
    },
    {
      name: `correct the first answer with ${String(skips.length)} tests left out`,
      figure: correct,
      unit: 'ms',
      limit: { atMost: 20 },
    },
  ];
}

/** At every tenth step its test is left out, and the first test of the step after it turned to. */
function leftOutEvent(walk: Walk): JobEvent {
  const { act, step } = standing(walk);
  const depth = Number(step?.step.split('-')[1] ?? Number.NaN);
  if (act.kind === 'adrift') return { kind: 'turn-to', test: testAfter(walk) };
  if (act.kind === 'test' && depth % 10 === 5) return { kind: 'skip', test: act.test, reason: 'No probe' };
  return nextEvent(walk);
}

function testAfter({ snapshot, chart }: Walk): string {
  const left = snapshot.context.leavings.at(-1)?.from;
  const branch = chart.tree.symptoms['symptom']?.steps[left?.step ?? '']?.then['sound'];
  return chart.tree.symptoms['symptom']?.steps[branch?.go ?? '']?.test ?? '';
}

interface Timed {
  readonly kind: JobEvent['kind'];
  readonly ms: number;
}

interface WayDown {
  readonly walk: Walk;
  readonly events: readonly JobEvent[];
  readonly times: readonly Timed[];
}

/** Answers every test asked, soundly, and times each event. The way down is walked twice: once to warm up. */
function walkDown(chart: Chart, eventFor = nextEvent): WayDown {
  const walks = [0, 1].map(() => walkOnce(chart, eventFor));
  const last = walks.at(-1);
  if (last === undefined || last.events.length < LARGE_DEPTH)
    throw new Error('The way down is shorter than it should be.');
  return last;
}

function walkOnce(chart: Chart, eventFor: (walk: Walk) => JobEvent): WayDown {
  const events: JobEvent[] = [];
  const times: Timed[] = [];
  let walk = startWalk(chart, 'symptom');
  while (events.length < LARGE_DEPTH) {
    const event = eventFor(walk);
    const start = performance.now();
    const next = advance(walk, event);
    times.push({ kind: event.kind, ms: performance.now() - start });
    if (!next.ok) throw new Error(`${JSON.stringify(event)}: ${next.refusal.message}`);
    events.push(event);
    walk = next.walk;
  }
  return { walk, events, times };
}

function nextEvent(walk: Walk): JobEvent {
  const { act } = standing(walk);
  if (act.kind === 'change') return { kind: 'change', axis: act.axis, to: act.change.to };
  if (act.kind === 'test') return { kind: 'answer', test: act.test, result: 'sound' };
  throw new Error(`Neither a test nor a changeover: ${act.kind}`);
}

function leastTransition(): number {
  const machine = setup({ types: { events: {} as { type: 'on' } } }).createMachine({
    initial: 'one',
    states: { one: { on: { on: 'two' } }, two: { on: { on: 'one' } } },
  });
  const [snapshot] = initialTransition(machine);
  return medianMs(501, () => transition(machine, snapshot, { type: 'on' }));
}

function medianTime(times: readonly Timed[]): number {
  return times.map(({ ms }) => ms).sort((a, b) => a - b)[Math.floor(times.length / 2)] ?? 0;
}
