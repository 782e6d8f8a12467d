import type { Act, JobEvent, JobState } from '../../../trees/chart/index.ts';
import { referenceOf, UNLISTED, type Test, type Tree } from '../../../trees/document/index.ts';
import { drawReading } from './draw-reading.ts';
import type { Random } from './random.ts';
import { STORY } from './story.ts';
import type { UnitUnderTest } from './unit-under-test.ts';

/** What an invented technician does next, and the minutes it takes. */
export interface Done {
  readonly event: JobEvent;
  readonly minutes: number;
}

/** An invented unit at the bench, and who works on it. */
export interface AtBench {
  readonly tree: Tree;
  readonly unit: UnitUnderTest;
  readonly random: Random;
  /** How well remedies are done, 1 being as well as can be. */
  readonly care: number;
}

/** Follows the one act the chart asks for, now and then as people do: a test skipped, a repair declined. Null where the job is over. */
export function nextEvent(at: AtBench, act: Act, job: JobState): Done | null {
  switch (act.kind) {
    case 'change':
      return { event: { kind: 'change', axis: act.axis, to: act.change.to }, minutes: act.change.minutes };
    case 'test':
      return doTest(at, act, job);
    case 'finding':
      return atFinding(at, act.finding);
    case 'remedy':
      return doRemedy(at, act.finding);
    case 'contradiction':
      return { event: { kind: 'settle', result: job.contradiction?.result ?? null }, minutes: 0.5 };
    case 'barred':
      return close(at.random.choose(['passed-on', 'beyond-economic-repair']));
    case 'adrift':
      return whenAdrift(at, job);
    case 'mended':
      return close('fixed');
    case 'closed':
      return null;
  }
}

function doTest(at: AtBench, { test: id, purpose }: Extract<Act, { kind: 'test' }>, job: JobState): Done {
  const { tree, unit, random } = at;
  const test = tree.tests[id];
  if (test === undefined) throw new Error(`unknown-test: ${id}`);
  const result = unit.answer(id);
  if (purpose.kind === 'path' && random.happens(STORY.skips)) {
    const reason = random.choose([
      'Probe does not reach with the panel fitted.',
      'Made yesterday by a colleague.',
    ]);
    return { event: { kind: 'skip', test: id, reason, as: result }, minutes: 0.1 };
  }
  if (test.reading === undefined)
    return { event: { kind: 'answer', test: id, result }, minutes: test.minutes };
  const reading = drawReading(test, result, referenceFor(test, job), random);
  if (reading === null) return close('passed-on');
  return { event: { kind: 'answer', test: id, result, reading }, minutes: test.minutes };
}

function referenceFor(test: Test, { answers }: JobState): number | undefined {
  const of = referenceOf(test);
  const value = answers.find(({ test: id }) => id === of)?.reading?.value;
  return typeof value === 'number' ? value : undefined;
}

function atFinding({ unit, random }: AtBench, finding: string): Done {
  if (unit.finding === null && random.happens(0.7)) return close('no-fault-found');
  if (random.happens(STORY.declines)) return close('declined');
  if (random.happens(STORY.writesOff)) return close('beyond-economic-repair');
  return { event: { kind: 'start-remedy', finding }, minutes: 0.2 };
}

function doRemedy({ tree, unit, random, care }: AtBench, finding: string): Done {
  if (random.happens(STORY.givesUp))
    return { event: { kind: 'give-up-remedy', reason: 'Part not in stock.' }, minutes: 1 };
  unit.remedy(finding, care);
  const minutes = tree.findings[finding]?.remedy.minutes ?? tree.defaults.escalate;
  return { event: { kind: 'remedy-done' }, minutes };
}

/** The path has no more to say: a nothing is called so, an experienced eye may see what it is, else the unit is passed on. */
function whenAdrift({ unit, random }: AtBench, { remedies }: JobState): Done {
  const { finding } = unit;
  if (finding === null) return close('no-fault-found');
  const isTried = remedies.some((remedy) => remedy.finding === finding);
  if (isTried || random.happens(0.4)) return close('passed-on');
  const what =
    finding === UNLISTED
      ? { what: random.choose(['Hairline crack in the board', 'Liquid under a chip']) }
      : {};
  return { event: { kind: 'start-remedy', finding, ...what }, minutes: 2 };
}

function close(outcome: Extract<JobEvent, { kind: 'close' }>['outcome']): Done {
  return { event: { kind: 'close', outcome }, minutes: 1 };
}
