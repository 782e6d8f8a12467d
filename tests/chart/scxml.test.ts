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
import type { Tree } from '../../trees/document/index.ts';
import { arbitraryTree } from '../support/arbitrary-tree.ts';
import { smallDocument, smallTree, treeOf } from '../support/trees.ts';
import { configurationOf, interpretersOf, type Interpreter } from './scxml-interpreter.ts';
import { after, drawEvent, follow, measured, type Dice } from './walking.ts';

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

/** Says the symptom, gives the same random events to the chart and to the interpreter, and holds the two together. */
function walkBoth(interpreter: Interpreter, start: Walk, drawn: readonly Dice[]): void {
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
function retrace(interpreter: Interpreter, start: Walk, events: readonly JobEvent[]): Walk {
  interpreter.gen(`symptom.${start.snapshot.context.job.symptom}`);
  expect(configurationOf(interpreter)).toEqual(scxmlConfiguration(start));
  return events.reduce((walk, event) => {
    interpreter.gen(scxmlEvent(event, walk.snapshot.context.job) ?? '');
    const next = after(walk, event);
    expect([event, configurationOf(interpreter)]).toEqual([event, scxmlConfiguration(next)]);
    return next;
  }, start);
}

const dice = fc.tuple(fc.nat(9999), fc.nat(9999), fc.nat(9999), fc.nat(9999));
const throws: fc.Arbitrary<readonly Dice[]> = fc.array(dice, { maxLength: 40, size: 'max' });

describe('toScxml', () => {
  it('is walked by a general-purpose interpreter to the same configurations as the chart, for every symptom of random trees', async () => {
    await fc.assert(
      fc.asyncProperty(arbitraryTree(), throws, async (tree, drawn) => {
        const chart = compileChart(tree);
        const interpreterAtStart = await interpretersOf(toScxml(chart));
        for (const symptom of Object.keys(tree.symptoms)) {
          walkBoth(interpreterAtStart(), startWalk(chart, symptom), drawn);
        }
      }),
      { numRuns: 40 },
    );
  }, 120_000);

  it('follows a whole job event by event: every kind of event that the export takes is among them', async () => {
    const chart = compileChart(smallTree());
    const interpreterAtStart = await interpretersOf(toScxml(chart));
    const { act, job } = standing(retrace(interpreterAtStart(), startWalk(chart, 'dark-screen'), JOB));
    expect(act).toEqual({ kind: 'closed', outcome: 'fixed' });
    expect(job.remedies.map(({ state }) => state)).toEqual(['given-up', 'not-mended', 'mended']);
    const kinds = jobEventSchema.options.map(({ shape }) => shape.kind.value);
    expect(new Set(JOB.map(({ kind }) => kind))).toEqual(
      new Set(kinds.filter((kind) => kind !== 'take-back')),
    );
  }, 120_000);

  it('takes nothing before the symptom is said, and no other symptom after', async () => {
    const interpreter = (await interpretersOf(toScxml(smallTree())))();
    for (const event of [
      'change.shell.open',
      'turn-to.tone',
      'answer.tone.heard',
      'close.declined',
      'symptom.wet',
    ])
      interpreter.gen(event);
    expect(configurationOf(interpreter)).toEqual(['intake']);
    interpreter.gen('symptom.no-sound');
    const begun = configurationOf(interpreter);
    expect(begun).toEqual(
      expect.arrayContaining(['complaint.no-sound', 'path.no-sound.listen.preparing', 'bench.shell.closed']),
    );
    interpreter.gen('symptom.dark-screen');
    expect(configurationOf(interpreter)).toEqual(begun);
  });

  it.each([
    ['dark-screen', 'finding.panel-dead'],
    ['no-sound', 'finding.speaker-open'],
    ['hum', 'adrift.path-ended'],
    ['smell', 'adrift.no-path'],
  ])(
    'leads %s on by its own path’s step where `otherwise` names a step alone: to %s',
    async (symptom, end) => {
      const chart = compileChart(treeWithSharedFinding());
      const interpreterAtStart = await interpretersOf(toScxml(chart));
      const { trail } = jobWithFailedRemedy(startWalk(chart, symptom));
      const walk = retrace(interpreterAtStart(), startWalk(chart, symptom), trail);
      expect(scxmlConfiguration(walk)).toEqual(
        expect.arrayContaining([end, 'tried.volume-down.not-mended.last']),
      );
    },
  );

  it('takes no changeover that an interlock bars, as the chart takes none', async () => {
    const interpreter = (await interpretersOf(toScxml(smallTree())))();
    interpreter.gen('symptom.dark-screen');
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

/** The small tree, where every path comes to one finding whose `otherwise` is a step that only some of the paths have. */
function treeWithSharedFinding(): Tree {
  const document = smallDocument();
  const { 'dark-screen': dark, 'no-sound': sound } = document.symptoms;
  const shared = document.findings['volume-down'];
  if (dark?.steps === undefined || sound?.steps === undefined || shared === undefined)
    throw new Error('The small document has changed.');
  const listen = { test: 'tone', then: branches('tone', 'finding:volume-down') };
  shared.otherwise = 'again';
  dark.steps['again'] = { test: 'border', then: branches('border', 'finding:panel-dead') };
  sound.steps['listen'] = listen;
  sound.steps['again'] = { test: 'tone', then: branches('tone', 'finding:speaker-open') };
  document.symptoms['hum'] = { title: 'Hum', first: 'listen', steps: { listen } };
  document.symptoms['smell'] = { title: 'Smell', weights: { 'volume-down': 1 } };
  return treeOf(document);

  function branches(test: string, go: string) {
    return Object.fromEntries(
      Object.keys(document.tests[test]?.results ?? {}).map((result) => [result, { go }]),
    );
  }
}

/** Sound answers down the path, then the remedy of the finding that the paths share, which does not mend. */
function jobWithFailedRemedy(start: Walk): Walk {
  const begun = after(
    follow(start, () => 0),
    { kind: 'start-remedy', finding: 'volume-down' },
  );
  const done = after(
    follow(begun, () => 0),
    { kind: 'remedy-done' },
  );
  return follow(done, (test) => (test === 'tone' ? 1 : 0));
}

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
