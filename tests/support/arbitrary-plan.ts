import fc from 'fast-check';
import { compileFaultModel, NO_HISTORY, type History } from '../../trees/belief/index.ts';
import type { JobState } from '../../trees/chart/index.ts';
import { drawBench, drawInterlocks, drawNeeds, type Bench } from './arbitrary-plan-bench.ts';
import { drawBenchNow, drawJob } from './arbitrary-plan-job.ts';
import { drawTests } from './arbitrary-plan-tests.ts';
import { drawHistory } from '../belief/arbitrary-case.ts';
import { pick, some, type Draw } from './draw.ts';
import type { ReferenceQuestion } from './reference-plan-state.ts';
import { treeOf, type TreeDocument } from './trees.ts';

/** A planning question as it is drawn, all of it plain data. */
export interface DrawnQuestion {
  readonly document: TreeDocument;
  readonly history: History;
  readonly goal: 'isolate' | 'fix';
  readonly job: JobState;
  readonly bench: Readonly<Record<string, string>>;
  readonly rate: number | null;
}

/** What is drawn: results that are certain for every finding, or as doubtful as they come. */
export interface Kind {
  readonly goal: 'isolate' | 'fix';
  readonly certain: boolean;
}

/**
 * Small planning questions, sound by construction (the checker finds no error): benches with two ways to a state,
 * interlocks that wait for two tests, ratio bands, proofs, and jobs in the middle of things. Minutes are quarters, so that sums of
 * them are exact and ways of equal length are found equal.
 */
export function arbitraryQuestion(kind: Kind): fc.Arbitrary<DrawnQuestion> {
  return fc.gen().map((draw) => drawQuestion(draw, kind));
}

export function questionOf({ document, history, ...rest }: DrawnQuestion): ReferenceQuestion {
  return { model: compileFaultModel(treeOf(document), history), ...rest };
}

function drawQuestion(draw: Draw, { goal, certain }: Kind): DrawnQuestion {
  const document = drawDocument(draw, goal, certain);
  const tree = treeOf(document);
  const job = drawJob(draw, tree, certain);
  return {
    document,
    history: !certain && oneIn(draw, 4) ? drawHistory(draw, tree) : NO_HISTORY,
    goal,
    job,
    bench: drawBenchNow(draw, tree, job),
    rate: pick(draw, [null, 30, 60]),
  };
}

function drawDocument(draw: Draw, goal: Kind['goal'], certain: boolean): TreeDocument {
  const bench = drawBench(draw);
  const count = pick(draw, goal === 'fix' && !certain ? [1, 2, 3, 4, 5] : [1, 2, 3, 4, 5, 6]);
  const interlocks = drawInterlocks(draw, bench, count);
  const tests = drawTests(draw, { bench, interlocks, count, certain });
  // Where one test would have to give two results, tests lie beyond what can ever be opened, and it is a question of words
  // whether they are left: with goal isolate, which ends by that, a test is allowed the same results everywhere.
  const once = new Map(Object.keys(tests).map((id) => [id, drawAllowed(draw, tests, id)]));
  const allowedOf = (id: string) =>
    goal === 'isolate' ? (once.get(id) ?? []) : drawAllowed(draw, tests, id);
  const findings = drawFindings(draw, { bench, tests, certain, most: goal === 'fix' && !certain ? 16 : 24 });
  return {
    format: 'ohmward-tree/1',
    id: 'drawn',
    title: 'Drawn',
    unit: { family: 'Drawn' },
    defaults: {
      reliability: 1,
      unlisted: certain ? 0 : 0.02,
      fixRate: pick(draw, [0.5, 0.9, 0.95, 1]),
      escalate: pick(draw, [2, 10, 30, 60]),
      settled: pick(draw, [0.8, 0.9, 0.95, 1]),
    },
    bench,
    interlocks: interlocks.map(({ change, openers }) => ({
      change,
      until: Object.fromEntries(openers.map((id) => [id, allowedOf(id)])),
      because: 'Drawn',
    })),
    tests,
    findings,
    symptoms: { shown: { title: 'Shown', weights: drawWeights(draw, Object.keys(findings)) } },
  };
}

/**
 * Most often the sound result and perhaps others, at times any; but always the sound one of a test that ratios refer to, since a
 * proof that takes it for its reading does not say what it gives as an opener.
 */
function drawAllowed(draw: Draw, tests: TreeDocument['tests'], id: string): string[] {
  const results = Object.keys(tests[id]?.results ?? {});
  const refersToIt = ({ results: others }: TreeDocument['tests'][string]) =>
    Object.values(others).some(({ band }) => band?.of === id);
  if (oneIn(draw, 3) && !Object.values(tests).some(refersToIt)) return some(draw, results, 1);
  return [...results.slice(0, 1), ...some(draw, results.slice(1))];
}

function drawWeights(draw: Draw, findings: readonly string[]): Record<string, number> {
  const weighed = oneIn(draw, 4) ? some(draw, findings, 1) : findings;
  return Object.fromEntries(weighed.map((finding) => [finding, draw(fc.integer, { min: 1, max: 12 })]));
}

function drawFindings(
  draw: Draw,
  of: {
    readonly bench: Bench;
    readonly tests: TreeDocument['tests'];
    readonly certain: boolean;
    /** Of findings times tests: what the reference is still quick at. */
    readonly most: number;
  },
): TreeDocument['findings'] {
  const testIds = Object.keys(of.tests);
  const counts = [1, 2, 3, 4, 5, 5].filter((count) => count * testIds.length <= of.most);
  const count = pick(draw, counts);
  const ids = Array.from({ length: count }, (_, place) => `finding-${String(place)}`);
  return Object.fromEntries(
    ids.map((id) => [
      id,
      {
        title: id,
        because: id,
        remedy: {
          steps: ['Mend it.'],
          needs: drawNeeds(draw, of.bench, []),
          minutes: draw(fc.nat, { max: 80 }) / 4,
          parts: oneIn(draw, 3) ? [{ name: 'Part', price: draw(fc.nat, { max: 16 }) / 2 }] : [],
          disturbs: oneIn(draw, 2) ? some(draw, testIds, 0, 2) : [],
        },
        prove: oneIn(draw, 2) ? [] : some(draw, testIds, 1, 2),
        expects: drawExpects(draw, of.tests, of.certain),
      },
    ]),
  );
}

type Expects = NonNullable<TreeDocument['findings'][string]['expects']>;

/** Where results are uncertain, some tests are left out: nobody has said what they give. */
function drawExpects(draw: Draw, tests: TreeDocument['tests'], certain: boolean): Expects {
  const expects: Expects = {};
  for (const [id, test] of Object.entries(tests)) {
    const results = Object.keys(test.results);
    if (certain || oneIn(draw, 2)) expects[id] = pick(draw, results);
    else if (!oneIn(draw, 3)) expects[id] = drawShares(draw, results);
  }
  return expects;
}

function drawShares(draw: Draw, results: readonly string[]): Record<string, number> {
  const parts = results.map((_, place) => draw(fc.nat, { max: 9 }) + (place === 0 ? 1 : 0));
  const whole = parts.reduce((sum, part) => sum + part, 0);
  return Object.fromEntries(results.map((result, place) => [result, (parts[place] ?? 0) / whole]));
}

function oneIn(draw: Draw, count: number): boolean {
  return draw(fc.nat, { max: count - 1 }) === 0;
}
