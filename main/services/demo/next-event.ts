import type { Act, JobEvent, Standing } from '../../../trees/chart/index.ts';
import { referenceOf, UNLISTED, type Tree } from '../../../trees/document/index.ts';
import { drawReading } from './draw-reading.ts';
import type { Random } from './random.ts';
import type { UnitUnderTest } from './unit-under-test.ts';

/** What an invented technician does next, and the minutes it takes; null where the job is over. */
export interface Done {
  readonly event: JobEvent;
  readonly minutes: number;
}

/** How often an invented bench leaves the straight way. Invented. */
const SKIPS = 0.015;
const DECLINES = 0.02;
const WRITES_OFF = 0.015;
const GIVES_UP = 0.01;

/** Follows the one act the chart asks for, now and then as people do: a test skipped, a repair declined. */
export function nextEvent(
  tree: Tree,
  { act, job }: Standing,
  unit: UnitUnderTest,
  random: Random,
): Done | null {
  switch (act.kind) {
    case 'change':
      return { event: { kind: 'change', axis: act.axis, to: act.change.to }, minutes: act.change.minutes };
    case 'test':
      return doTest(tree, act, job.answers, unit, random);
    case 'finding':
      return atFinding(act.finding, unit, random);
    case 'remedy':
      return doRemedy(tree, act.finding, unit, random);
    case 'contradiction':
      return { event: { kind: 'settle', result: job.contradiction?.result ?? null }, minutes: 0.5 };
    case 'barred':
      return close(random.choose(['passed-on', 'beyond-economic-repair']));
    case 'adrift':
      return whenAdrift(
        job.remedies.map(({ finding }) => finding),
        unit,
        random,
      );
    case 'mended':
      return close('fixed');
    case 'closed':
      return null;
  }
}

function doTest(
  tree: Tree,
  { test: id, purpose }: Extract<Act, { kind: 'test' }>,
  answers: Standing['job']['answers'],
  unit: UnitUnderTest,
  random: Random,
): Done {
  const test = tree.tests[id];
  if (test === undefined) throw new Error(`unknown-test: ${id}`);
  const result = unit.answer(id);
  if (purpose.kind === 'path' && random.happens(SKIPS)) {
    const reason = random.choose([
      'Probe does not reach with the panel fitted.',
      'Made yesterday by a colleague.',
    ]);
    return { event: { kind: 'skip', test: id, reason, as: result }, minutes: 0.1 };
  }
  if (test.reading === undefined)
    return { event: { kind: 'answer', test: id, result }, minutes: test.minutes };
  const earlier = answers.find((answer) => answer.test === referenceOf(test))?.reading?.value;
  const reference = typeof earlier === 'number' ? earlier : undefined;
  const reading = drawReading(test, result, reference, random);
  if (reading === null) return close('passed-on');
  return { event: { kind: 'answer', test: id, result, reading }, minutes: test.minutes };
}

function atFinding(finding: string, unit: UnitUnderTest, random: Random): Done {
  if (unit.finding === null && random.happens(0.7)) return close('no-fault-found');
  if (random.happens(DECLINES)) return close('declined');
  if (random.happens(WRITES_OFF)) return close('beyond-economic-repair');
  return { event: { kind: 'start-remedy', finding }, minutes: 0.2 };
}

function doRemedy(tree: Tree, finding: string, unit: UnitUnderTest, random: Random): Done {
  if (random.happens(GIVES_UP))
    return { event: { kind: 'give-up-remedy', reason: 'Part not in stock.' }, minutes: 1 };
  unit.remedy(finding);
  const minutes = tree.findings[finding]?.remedy.minutes ?? tree.defaults.escalate;
  return { event: { kind: 'remedy-done' }, minutes };
}

/** The path has no more to say: a nothing is called so, an experienced eye may see what it is, else the unit is passed on. */
function whenAdrift(tried: readonly string[], unit: UnitUnderTest, random: Random): Done {
  const { finding } = unit;
  if (finding === null) return close('no-fault-found');
  if (tried.includes(finding) || random.happens(0.4)) return close('passed-on');
  const what =
    finding === UNLISTED
      ? { what: random.choose(['Hairline crack in the board', 'Liquid under a chip']) }
      : {};
  return { event: { kind: 'start-remedy', finding, ...what }, minutes: 2 };
}

function close(outcome: Extract<JobEvent, { kind: 'close' }>['outcome']): Done {
  return { event: { kind: 'close', outcome }, minutes: 1 };
}
