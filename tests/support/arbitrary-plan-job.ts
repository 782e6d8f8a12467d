import fc from 'fast-check';
import type { Answer, JobState, RemedyTried } from '../../trees/chart/index.ts';
import { limitsOf, referenceOf, resultOf, type Test, type Tree } from '../../trees/document/index.ts';
import { pick, some, type Draw } from './draw.ts';

/** Half of the jobs are new; the others have answers, skips, and some a remedy that did not mend or was given up. */
export function drawJob(draw: Draw, tree: Tree, certain: boolean): JobState {
  const job: JobState = { symptom: 'shown', answers: [], skips: [], remedies: [], era: 0 };
  if (draw(fc.boolean)) return job;
  const remedies = drawRemedies(draw, tree);
  const era = remedies.filter(({ state }) => state === 'not-mended').length;
  const finding = pick(draw, Object.keys(tree.findings));
  const answers: Answer[] = [];
  for (const id of some(draw, Object.keys(tree.tests), 0, 3)) {
    const expected =
      certain && draw(fc.nat, { max: 7 }) > 0 ? tree.findings[finding]?.expects[id] : undefined;
    const answer = drawAnswer(draw, tree, id, typeof expected === 'string' ? expected : undefined, answers);
    const disturbed = remedies.some((remedy) => tree.findings[remedy.finding]?.remedy.disturbs.includes(id));
    if (answer !== null) answers.push({ ...answer, era: disturbed ? era : draw(fc.nat, { max: era }) });
  }
  const open = Object.keys(tree.tests).filter((id) => answers.every(({ test }) => test !== id));
  const skipped = draw(fc.nat, { max: 3 }) === 0 ? some(draw, open, 0, 1) : [];
  const skips = skipped.map((test) => ({ test, as: 'sound', reason: 'drawn' }));
  return { ...job, answers, skips, remedies, era };
}

/** How the unit may stand on the bench with such a job: in no state that is barred. */
export function drawBenchNow(draw: Draw, tree: Tree, job: JobState): Readonly<Record<string, string>> {
  const isFresh = (test: string, allowed: readonly string[]) =>
    job.answers.some((one) => one.test === test && one.era === job.era && allowed.includes(one.result));
  const shut = tree.interlocks.filter(
    ({ until }) => !Object.entries(until).every(([test, allowed]) => isFresh(test, allowed)),
  );
  return Object.fromEntries(
    Object.entries(tree.bench).map(([axis, { start, states }]) => {
      const free = Object.keys(states).filter((state) => shut.every(({ change }) => change[axis] !== state));
      return [axis, draw(fc.boolean) ? start : pick(draw, free)];
    }),
  );
}

function drawRemedies(draw: Draw, tree: Tree): readonly RemedyTried[] {
  const state = pick(draw, ['not-mended', 'not-mended', 'given-up', null] as const);
  if (state === null) return [];
  const finding = pick(draw, Object.keys(tree.findings));
  return [{ finding, state, evidence: [], prove: [], proofs: [] }];
}

/** Null for a ratio whose reference has not been read. */
function drawAnswer(
  draw: Draw,
  tree: Tree,
  id: string,
  wanted: string | undefined,
  before: readonly Answer[],
): Answer | null {
  const test = tree.tests[id];
  if (test === undefined) return null;
  const results = Object.keys(test.results);
  const result = wanted ?? pick(draw, results);
  if (test.reading === undefined) return { test: id, result, era: 0 };
  const of = referenceOf(test);
  const reference = of === undefined ? undefined : before.find((one) => one.test === of)?.reading?.value;
  if (of !== undefined && (typeof reference !== 'number' || reference === 0)) return null;
  const reading = drawReading(draw, test, result, typeof reference === 'number' ? reference : undefined);
  const held = resultOf(test, reading.value, typeof reference === 'number' ? reference : undefined);
  if (!held.ok) return null;
  return {
    test: id,
    result: held.result,
    reading,
    era: 0,
    ...(typeof reference === 'number' ? { reference } : {}),
  };
}

/** In the middle of the result's band, or within three standard uncertainties of one of its limits. */
function drawReading(draw: Draw, test: Test, result: string, reference: number | undefined) {
  const found = limitsOf(test, reference);
  const band = found.ok ? found.limits.find((limits) => limits.result === result) : undefined;
  const { from, to } = band ?? { from: 0, to: 1 };
  const accuracy = pick(draw, [
    { percent: 0, constant: 0 },
    { percent: 0.5, constant: 0.005 },
    { percent: 3, constant: 0.1 },
  ]);
  const limit = from === -Infinity ? to : to === Infinity || draw(fc.boolean) ? from : to;
  const middle = from === -Infinity ? to - 0.5 : to === Infinity ? from + 0.5 : (from + to) / 2;
  const uncertainty = ((accuracy.percent / 100) * Math.abs(limit) + accuracy.constant) / Math.sqrt(3);
  const near = limit + (draw(fc.integer, { min: -12, max: 12 }) / 4) * uncertainty;
  const value = draw(fc.boolean) ? near : middle;
  return { value, typed: String(value), accuracy };
}
