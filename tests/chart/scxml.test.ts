import { createRequire } from 'node:module';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  advance,
  compileChart,
  jobEventSchema,
  scxmlConfiguration,
  scxmlEvent,
  standing,
  startWalk,
  toScxml,
  type JobEvent,
  type Refusal,
  type Walk,
} from '../../trees/chart/index.ts';
import { arbitraryTree } from '../support/arbitrary-tree.ts';
import { smallTree } from '../support/trees.ts';
import { after, drawEvent, measured, type Dice } from './walking.ts';

interface Interpreter {
  start(): void;
  gen(name: string): void;
  getConfiguration(): readonly string[];
  getFullConfiguration(): readonly string[];
}

interface Scion {
  readonly core: { readonly Statechart: new (model: unknown) => Interpreter };
  documentStringToModel(
    url: string,
    document: string,
    done: (
      error: Error | null,
      model: { prepare(done: (error: Error | null, model: unknown) => void): void },
    ) => void,
  ): void;
}

const scion = createRequire(import.meta.url)('@scion-scxml/scxml') as Scion;
const { Statechart } = createRequire(import.meta.url)('@scion-scxml/core') as Scion['core'];

async function interpreterOf(document: string): Promise<Interpreter> {
  const model = await new Promise((resolve, reject) => {
    scion.documentStringToModel('chart.scxml', document, (error, loaded) => {
      if (error) reject(error);
      else loaded.prepare((problem, prepared) => (problem ? reject(problem) : resolve(prepared)));
    });
  });
  const interpreter = new Statechart(model);
  interpreter.start();
  return interpreter;
}

const SHOWN =
  /^(?:path|aside|finding|remedy|proof|contradiction|mended|adrift|closed|routing|leaving|bench|answer|skip|attempt|tried)\./;

function configurationOf(interpreter: Interpreter): readonly string[] {
  const gates = interpreter.getFullConfiguration().filter((id) => /^interlock\.\d+\.(?:open|shut)$/.test(id));
  return [...interpreter.getConfiguration().filter((id) => SHOWN.test(id)), ...gates].sort();
}

/** Refusals for what a reading says, which the export leaves to whoever sorts readings into results. */
const BY_READING = [
  'result-mismatch',
  'reading-missing',
  'reading-not-wanted',
  'reference-unusable',
  'unknown-result',
];

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

/** Gives the same random events to the chart and to the interpreter, and holds the two against each other after each. */
function walkBoth(interpreter: Interpreter, start: Walk, drawn: readonly Dice[]): JobEvent['kind'][] {
  const kinds: JobEvent['kind'][] = [];
  let walk = start;
  expect(configurationOf(interpreter)).toEqual(scxmlConfiguration(walk));
  for (const dice of drawn) {
    const event = drawEvent(walk, dice);
    const next = advance(walk, event);
    const name = scxmlEvent(event, walk.snapshot.context.job);
    if (name === null || !isCovered(walk, event, next.ok ? next.walk : next.refusal)) continue;
    const named = `${next.ok ? 'taken' : next.refusal.code}: ${name}`;
    interpreter.gen(name);
    if (next.ok) {
      walk = next.walk;
      kinds.push(event.kind);
    }
    expect([named, ...configurationOf(interpreter)]).toEqual([named, ...scxmlConfiguration(walk)]);
  }
  return kinds;
}

const dice = fc.tuple(fc.nat(9999), fc.nat(9999), fc.nat(9999), fc.nat(9999));
const throws: fc.Arbitrary<readonly Dice[]> = fc.array(dice, { maxLength: 40, size: 'max' });

describe('toScxml', () => {
  it('is walked by a general-purpose interpreter to the same configurations as the chart, on random trees', async () => {
    await fc.assert(
      fc.asyncProperty(arbitraryTree(), fc.nat(9), throws, async (tree, which, drawn) => {
        const symptoms = Object.keys(tree.symptoms);
        const symptom = symptoms[which % symptoms.length] ?? '';
        const chart = compileChart(tree);
        walkBoth(await interpreterOf(toScxml(chart, symptom)), startWalk(chart, symptom), drawn);
      }),
      { numRuns: 40 },
    );
  }, 120_000);

  it('follows a whole job event by event: every kind of event that the export takes is among them', async () => {
    const chart = compileChart(smallTree());
    const interpreter = await interpreterOf(toScxml(chart, 'dark-screen'));
    let walk = startWalk(chart, 'dark-screen');
    for (const event of JOB) {
      interpreter.gen(scxmlEvent(event, walk.snapshot.context.job) ?? '');
      walk = after(walk, event);
      expect([event, configurationOf(interpreter)]).toEqual([event, scxmlConfiguration(walk)]);
    }
    expect(standing(walk).act).toEqual({ kind: 'closed', outcome: 'fixed' });
    expect(standing(walk).job.remedies.map(({ state }) => state)).toEqual([
      'given-up',
      'not-mended',
      'mended',
    ]);
    const kinds = jobEventSchema.options.map(({ shape }) => shape.kind.value);
    expect(new Set(JOB.map(({ kind }) => kind))).toEqual(
      new Set(kinds.filter((kind) => kind !== 'take-back')),
    );
  }, 120_000);

  it('takes no changeover that an interlock bars, as the chart takes none', async () => {
    const interpreter = await interpreterOf(toScxml(smallTree(), 'dark-screen'));
    interpreter.gen('change.power.on');
    expect(configurationOf(interpreter)).toEqual(
      expect.arrayContaining(['bench.power.off', 'interlock.0.shut']),
    );
    interpreter.gen('change.shell.open');
    interpreter.gen('answer.supply-resistance.clear');
    interpreter.gen('change.power.on');
    expect(configurationOf(interpreter)).toEqual(
      expect.arrayContaining(['bench.power.on', 'interlock.0.open']),
    );
  });
});

const shell: JobEvent = { kind: 'change', axis: 'shell', to: 'open' };
const on: JobEvent = { kind: 'change', axis: 'power', to: 'on' };
const off: JobEvent = { kind: 'change', axis: 'power', to: 'off' };
const clear = measured('supply-resistance', 'clear', 300);
const border = (result: string): JobEvent => ({ kind: 'answer', test: 'border', result });

/** A job with a contradiction, a skip, a test aside, a remedy given up, one that fails (and its `otherwise`), and one that mends. */
const JOB: readonly JobEvent[] = [
  shell,
  clear,
  on,
  measured('rail-in', 'low', 4),
  measured('rail-in', 'good', 5),
  { kind: 'settle', result: 'good' },
  { kind: 'skip', test: 'rail-far', reason: 'No probe long enough', as: 'good' },
  { kind: 'turn-to', test: 'tone' },
  { kind: 'turn-back' },
  border('none'),
  { kind: 'start-remedy', finding: 'panel-dead' },
  { kind: 'give-up-remedy', reason: 'No part' },
  { kind: 'correct', test: 'border', result: 'partial' },
  { kind: 'start-remedy', finding: 'ribbon-loose' },
  off,
  { kind: 'remedy-done' },
  clear,
  on,
  border('partial'),
  measured('rail-far', 'drop', 4),
  { kind: 'start-remedy', finding: 'joint-open' },
  off,
  { kind: 'remedy-done' },
  clear,
  on,
  measured('rail-far', 'good', 4.9),
  border('whole'),
  { kind: 'close', outcome: 'fixed' },
];
