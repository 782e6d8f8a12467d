import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  compileChart,
  jobEventSchema,
  scxmlConfiguration,
  standing,
  startWalk,
  toScxml,
  type JobEvent,
  type Walk,
} from '../../trees/chart/index.ts';
import type { Tree } from '../../trees/document/index.ts';
import { arbitraryTree } from '../support/arbitrary-tree.ts';
import { interpretersOf } from '../support/scxml-interpreter.ts';
import { smallDocument, smallTree, treeOf } from '../support/trees.ts';
import { configurationOf, retrace, walkBoth } from './scxml-walking.ts';
import { after, follow, measured, type Dice } from './walking.ts';

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
      { numRuns: 120 },
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
      expect(scxmlConfiguration(walk)).toEqual(expect.arrayContaining([end, 'tried.volume-down.not-mended']));
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
