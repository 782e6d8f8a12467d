import { expect, it } from 'vitest';
import {
  advance,
  compileChart,
  scxmlConfiguration,
  scxmlEvent,
  startWalk,
  toScxml,
  type JobEvent,
} from '../../trees/chart/index.ts';
import { interpretersOf } from '../support/scxml-interpreter.ts';
import { smallDocument, treeOf, type TreeDocument } from '../support/trees.ts';
import { configurationOf } from './scxml-walking.ts';
import { measured, reading } from './walking.ts';

/** An event that both take, or one that both refuse, with the chart's code. */
type Said = JobEvent | readonly [refused: string, event: JobEvent];

const change = (axis: string, to: string): JobEvent => ({ kind: 'change', axis, to });
const answer = (test: string, result: string): JobEvent => ({ kind: 'answer', test, result });
const correct = (test: string, result: string): JobEvent => ({ kind: 'correct', test, result });
const skip = (test: string, as: string): JobEvent => ({ kind: 'skip', test, reason: 'No time', as });
const start = (finding: string): JobEvent => ({ kind: 'start-remedy', finding });
const [open, on, off] = [change('shell', 'open'), change('power', 'on'), change('power', 'off')];
const clear = measured('supply-resistance', 'clear', 300);
const clean = answer('board-look', 'clean');
const done: JobEvent = { kind: 'remedy-done' };
const powered = [open, clear, clean, on];
const toPartial = [...powered, measured('rail-in', 'good', 5), measured('rail-far', 'good', 5)];

it.each<[string, readonly Said[]]>([
  [
    'takes no answer and no remedy for done where an interlock has shut behind the bench, until it opens or the bench is moved',
    [
      ...powered,
      correct('board-look', 'burnt'),
      ['safety-first', answer('border', 'none')],
      start('panel-dead'),
      ['safety-first', done],
      correct('board-look', 'clean'),
      answer('border', 'none'),
      correct('board-look', 'burnt'),
      ['safety-first', answer('tone', 'heard')],
      off,
      answer('board-look', 'burnt'),
      ['barred', on],
      done,
    ],
  ],
  [
    'opens an interlock again when a contradiction is settled for the first answer',
    [
      open,
      clear,
      clean,
      answer('board-look', 'burnt'),
      ['barred', on],
      { kind: 'settle', result: 'clean' },
      on,
    ],
  ],
  [
    'keeps an interlock shut while one of its answers is contradicted, whatever becomes of the others',
    [
      open,
      clear,
      clean,
      answer('board-look', 'burnt'),
      { kind: 'correct', test: 'supply-resistance', result: 'clear', reading: reading(200) },
      ['barred', on],
      { kind: 'settle', result: null },
      ['barred', on],
      clean,
      on,
    ],
  ],
  [
    'goes past a finding whose remedy did not mend each time that it sets out, also after a proof is rewritten',
    [
      ...toPartial,
      answer('border', 'partial'),
      start('ribbon-loose'),
      off,
      done,
      clear,
      clean,
      on,
      answer('border', 'partial'),
      answer('tone', 'heard'),
      correct('tone', 'silent'),
      correct('border', 'whole'),
      correct('border', 'none'),
      ['tried-already', start('ribbon-loose')],
      start('panel-dead'),
    ],
  ],
  [
    'takes a failed proof up again for an interlock’s test, as a contradiction that is not settled yet shows',
    [
      ...powered,
      start('panel-dead'),
      done,
      off,
      clear,
      clean,
      on,
      answer('border', 'none'),
      answer('tone', 'heard'),
      answer('tone', 'silent'),
      correct('board-look', 'clean'),
      { kind: 'settle', result: 'heard' },
      ['tried-already', start('panel-dead')],
    ],
  ],
  [
    'lets a skip be replaced where the test is turned to, and an answer win over it',
    [
      ...powered,
      { kind: 'turn-to', test: 'tone' },
      skip('tone', 'heard'),
      ['not-current', skip('tone', 'silent')],
      { kind: 'turn-to', test: 'tone' },
      skip('tone', 'silent'),
      answer('tone', 'heard'),
      { kind: 'turn-to', test: 'tone' },
      ['already-answered', skip('tone', 'silent')],
    ],
  ],
])('an SCXML export %s', async (_, script) => {
  const tree = treeOf(documentWithTwoOpeners());
  const interpreter = (await interpretersOf(toScxml(tree)))();
  interpreter.gen('symptom.dark-screen');
  script.reduce(
    (walk, said) => {
      const [refused, event] = 'kind' in said ? [null, said] : said;
      const next = advance(walk, event);
      expect([event, next.ok ? null : next.refusal.code]).toEqual([event, refused]);
      interpreter.gen(scxmlEvent(event, walk.snapshot.context.job) ?? '');
      const now = next.ok ? next.walk : walk;
      expect([event, configurationOf(interpreter)]).toEqual([event, scxmlConfiguration(now)]);
      return now;
    },
    startWalk(compileChart(tree), 'dark-screen'),
  );
});

/** The small document, where the interlock waits for a look at the board as well, and a remedy may be done under power. */
function documentWithTwoOpeners(): TreeDocument {
  const document = smallDocument();
  document.tests['board-look'] = {
    title: 'Board',
    ask: 'Look at the board.',
    instrument: 'eye',
    needs: { shell: 'open' },
    minutes: 0.5,
    results: { clean: { title: 'Clean' }, burnt: { title: 'Burnt' } },
  };
  for (const { until } of document.interlocks ?? []) until['board-look'] = ['clean'];
  const dead = document.findings['panel-dead'];
  if (dead === undefined) throw new Error('The small document has changed.');
  dead.remedy.needs = { shell: 'open' };
  return document;
}
