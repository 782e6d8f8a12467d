import { expect } from 'vitest';
import {
  advance,
  scxmlConfiguration,
  scxmlEvent,
  type JobEvent,
  type Refusal,
  type Walk,
} from '../../trees/chart/index.ts';
import type { Interpreter } from '../support/scxml-interpreter.ts';
import { after, drawEvent, type Dice } from './walking.ts';

const SHOWN =
  /^(?:intake$|(?:complaint|path|aside|finding|remedy|proof|contradiction|mended|adrift|closed|routing|leaving|bench|answer|attempt)\.|tried\.[^.]+\.no$)/;
const SHOWN_WHOLE = /^(?:interlock\.\d+\.(?:open|shut)|tried\.[^.]+\.not-mended)$/;

/** Refusals for what a reading says, which the export leaves to whoever sorts readings into results. */
const BY_READING = [
  'result-mismatch',
  'reading-missing',
  'reading-not-wanted',
  'reference-unusable',
  'unknown-result',
];

/** The states that `scxmlConfiguration` speaks of, among those that the interpreter is in. */
export function configurationOf(interpreter: Interpreter): readonly string[] {
  const whole = interpreter.getFullConfiguration().filter((id) => SHOWN_WHOLE.test(id));
  return [...interpreter.getConfiguration().filter((id) => SHOWN.test(id)), ...whole].sort();
}

/** Says the symptom, gives the same random events to the chart and to the interpreter, and holds the two together. */
export function walkBoth(interpreter: Interpreter, start: Walk, drawn: readonly Dice[]): void {
  let walk = start;
  interpreter.gen(`symptom.${walk.snapshot.context.job.symptom}`);
  expect(configurationOf(interpreter)).toEqual(scxmlConfiguration(walk));
  for (const dice of drawn) {
    const event = drawEvent(walk, dice);
    const next = advance(walk, event);
    const name = scxmlEvent(event, walk.snapshot.context.job);
    if (name === null || !isCovered(walk, event, next.ok ? next.walk : next.refusal)) continue;
    const named = `${next.ok ? 'taken' : next.refusal.code}: ${name}`;
    interpreter.gen(name);
    if (next.ok) walk = next.walk;
    expect([named, ...configurationOf(interpreter)]).toEqual([named, ...scxmlConfiguration(walk)]);
  }
}

/** Says the symptom and plays a job's events to the interpreter, which must be where the chart is after each. */
export function retrace(interpreter: Interpreter, start: Walk, events: readonly JobEvent[]): Walk {
  interpreter.gen(`symptom.${start.snapshot.context.job.symptom}`);
  expect(configurationOf(interpreter)).toEqual(scxmlConfiguration(start));
  return events.reduce((walk, event) => {
    interpreter.gen(scxmlEvent(event, walk.snapshot.context.job) ?? '');
    const next = after(walk, event);
    expect([event, configurationOf(interpreter)]).toEqual([event, scxmlConfiguration(next)]);
    return next;
  }, start);
}

/** Whether the export claims to follow this event: what it does not cover is said in the docstring of `toScxml`. */
function isCovered(walk: Walk, event: JobEvent, after: Walk | Refusal): boolean {
  const { tests, findings } = walk.chart.tree;
  if (scxmlEvent(event, walk.snapshot.context.job) === null) return false;
  if (event.kind === 'start-remedy' && (findings[event.finding]?.prove ?? []).length === 0) return false;
  if (!('snapshot' in after)) return !BY_READING.includes(after.code);
  const before = walk.snapshot.context.job;
  const now = after.snapshot.context.job;
  const isRewrite = event.kind === 'correct' || event.kind === 'settle';
  const about = event.kind === 'correct' ? event.test : before.contradiction?.test;
  const others = (job: typeof now) =>
    job.answers.filter(({ test }) => test !== about).map(({ test, result }) => [test, result]);
  if (isRewrite && JSON.stringify(others(before)) !== JSON.stringify(others(now))) return false;
  const last = now.remedies.at(-1);
  const isSound = ({ test, result }: { test: string; result: string }) =>
    Object.keys(tests[test]?.results ?? {})[0] === result;
  return last?.state !== 'not-mended' || !last.proofs.every(isSound);
}
