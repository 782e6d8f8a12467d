import { evidenceOf, type FaultModel, type Observation } from '../belief/index.ts';
import { own, referenceOf, UNLISTED, type Test, type Tree } from '../document/index.ts';
import { benchTable, type BenchTable } from './bench-table.ts';
import { FRESH, GIVEN } from './marks.ts';
import type { Goal, PlanQuestion } from './question.ts';

/** A test in numbers. */
export interface PlanTest {
  readonly id: string;
  readonly minutes: number;
  /** Wanted states by axis; -1 where any will do. */
  readonly needs: Int16Array;
  readonly results: number;
  /** P(r|f,t), a row of findings for each result: entry `result * findings + finding`. */
  readonly table: Float64Array;
  /** The entropy of its results under each finding, in bits. */
  readonly noise: Float64Array;
  /** The test whose reading the bands refer to; -1 where there is none. */
  readonly reference: number;
  /** Some interlock waits for it. */
  readonly opens: boolean;
  /** Some other test's bands refer to it. */
  readonly isReference: boolean;
  /** False where the technician has left it out. */
  readonly available: boolean;
  /** It could tell some findings apart. */
  readonly telling: boolean;
  /** No interlock and no missing reading can keep it from being made. */
  readonly safe: boolean;
  /** For a standing answer of the job: how well each finding explains it. */
  readonly given: Float64Array | null;
}

/** A finding's remedy in numbers. */
export interface PlanRemedy {
  readonly finding: string;
  /** Its work, and its parts through the hourly rate. */
  readonly minutes: number;
  readonly needs: Int16Array;
  readonly disturbs: readonly number[];
  /** Tests of its proof; null where the finding names none, and those that were not as in a sound unit prove it. */
  readonly prove: readonly string[] | null;
  readonly fixRate: number;
  /** Minutes that its proof takes at least. */
  readonly leastProof: number;
}

/** A question to the planner in numbers: tests in the tree's order, findings that can be (`unlisted` last). */
export interface Problem {
  readonly tree: Tree;
  readonly goal: Goal;
  readonly settled: number;
  readonly escalate: number;
  readonly findings: readonly string[];
  readonly prior: Float64Array;
  readonly tests: readonly PlanTest[];
  /** By finding, `unlisted` left out. */
  readonly remedies: readonly PlanRemedy[];
  readonly bench: BenchTable;
  /** Tests that others' bands refer to, by number. */
  readonly references: readonly number[];
  /** Where the job stands (see marks.ts). */
  readonly start: Uint16Array;
  readonly symptom: string;
  /** The plan ends at its first remedy, as a tree's path does: the unit is passed on where that does not mend it. */
  readonly endsAtRemedy: boolean;
}

/** Puts a question in numbers. */
export function problemOf(question: PlanQuestion, endsAtRemedy = false): Problem {
  const { model, goal, job } = question;
  const { tree } = model;
  const prior = model.prior(job.symptom).probability;
  const rows = model.findings.flatMap((finding, row) =>
    finding === UNLISTED || (prior[row] ?? 0) > 0 ? [row] : [],
  );
  const findings = rows.map((row) => model.findings[row] ?? UNLISTED);
  const bench = benchTable(tree);
  const observed = new Map(evidenceOf(tree, job).observations.map((one) => [one.test, one]));
  const tests = testsOf(question, bench, rows, observed);
  return {
    tree,
    goal,
    settled: tree.defaults.settled,
    escalate: tree.defaults.escalate,
    findings,
    prior: Float64Array.from(rows, (row) => prior[row] ?? 0),
    tests,
    remedies: findings.slice(0, -1).map((finding) => remedyOf(question, bench, tests, finding)),
    bench,
    references: tests.flatMap(({ isReference }, at) => (isReference ? [at] : [])),
    start: startOf(question, bench, findings),
    symptom: job.symptom,
    endsAtRemedy,
  };
}

function testsOf(
  { model, job }: PlanQuestion,
  bench: BenchTable,
  rows: readonly number[],
  observed: ReadonlyMap<string, Observation>,
): readonly PlanTest[] {
  const { tree } = model;
  const ids = Object.keys(tree.tests);
  const skipped = new Set(job.skips.map(({ test }) => test));
  const openers = new Set(bench.locks.flatMap(({ until }) => until.map(({ test }) => test)));
  const references = Object.values(tree.tests).map((test) => ids.indexOf(referenceOf(test) ?? ''));
  const referred = new Set(references);
  const safeNeeds = Object.values(tree.tests).map(({ needs }) => isSafe(bench, bench.needs(needs)));
  return Object.entries(tree.tests).map(([id, test], index) => {
    const table = tableOf(model, id, rows);
    const results = Object.keys(test.results).length;
    const observation = observed.get(id);
    const given = observation === undefined ? null : likelihood(test, table, rows.length, observation);
    const reference = references[index] ?? -1;
    return {
      id,
      minutes: test.minutes,
      needs: bench.needs(test.needs),
      results,
      table,
      noise: noiseOf(table, rows.length),
      reference,
      opens: openers.has(index),
      isReference: referred.has(index),
      available: !skipped.has(id),
      telling: tells(table, results, rows.length),
      safe: (safeNeeds[index] ?? false) && reference < 0,
      given,
    };
  });
}

function isSafe(bench: BenchTable, needs: Int16Array): boolean {
  return needs.every((state, axis) => state < 0 || bench.isSafe(axis, state));
}

function tableOf(model: FaultModel, id: string, rows: readonly number[]): Float64Array {
  const { results, probability } = model.test(id);
  const table = new Float64Array(results.length * rows.length);
  rows.forEach((row, at) => {
    for (let result = 0; result < results.length; result += 1)
      table[result * rows.length + at] = probability[row * results.length + result] ?? 0;
  });
  return table;
}

function noiseOf(table: Float64Array, findings: number): Float64Array {
  const noise = new Float64Array(findings);
  table.forEach((share, at) => {
    const row = at % findings;
    if (share > 0 && share < 1) noise[row] = (noise[row] ?? 0) - share * Math.log2(share);
  });
  return noise;
}

function likelihood(
  { results }: Test,
  table: Float64Array,
  findings: number,
  { weights }: Observation,
): Float64Array {
  const each = new Float64Array(findings);
  Object.keys(results).forEach((result, at) => {
    const weight = own(weights, result) ?? 0;
    if (weight === 0) return;
    for (let row = 0; row < findings; row += 1)
      each[row] = (each[row] ?? 0) + weight * (table[at * findings + row] ?? 0);
  });
  return each;
}

function tells(table: Float64Array, results: number, findings: number): boolean {
  for (let at = 0; at < results * findings; at += 1)
    if (Math.abs((table[at] ?? 0) - (table[at - (at % findings)] ?? 0)) > 1e-12) return true;
  return false;
}

function remedyOf(
  { model, rate }: PlanQuestion,
  bench: BenchTable,
  tests: readonly PlanTest[],
  finding: string,
): PlanRemedy {
  const { remedy, prove = [] } = own(model.tree.findings, finding) ?? {};
  const parts = remedy?.parts.reduce((sum, { price }) => sum + price, 0) ?? 0;
  // A proof goes by the chart's way, which an interlock may bar even where another way is free: it is then left out.
  const watched = new Set(bench.locks.flatMap(({ watches }) => watches.map(({ axis }) => axis)));
  const proving = tests.filter(
    ({ id, reference, needs }) =>
      prove.includes(id) &&
      reference < 0 &&
      needs.every((state, axis) => state < 0 || isPlain(bench, watched, axis, state)),
  );
  return {
    finding,
    minutes: (remedy?.minutes ?? 0) + (rate === null ? 0 : (parts * 60) / rate),
    needs: bench.needs(remedy?.needs ?? {}),
    disturbs: (remedy?.disturbs ?? []).map((id) => tests.findIndex((test) => test.id === id)),
    prove: prove.length === 0 ? null : prove,
    fixRate: model.fixRate(finding),
    leastProof: proving.reduce((sum, { minutes }) => sum + minutes, 0),
  };
}

/** Whether a state can be come to from every other whatever the interlocks, none of which watches its axis. */
function isPlain(bench: BenchTable, watched: ReadonlySet<number>, axis: number, state: number): boolean {
  return !watched.has(axis) && bench.isSafe(axis, state);
}

function startOf(
  { model, job, bench: stand }: PlanQuestion,
  bench: BenchTable,
  findings: readonly string[],
): Uint16Array {
  const ids = Object.keys(model.tree.tests);
  const openers = new Set(bench.locks.flatMap(({ until }) => until.map(({ test }) => test)));
  const remedies = findings.length - 1;
  const marks = new Uint16Array(ids.length + remedies + bench.axes.length);
  for (const { test, result, era } of job.answers) {
    const at = ids.indexOf(test);
    const place = Object.keys(model.tree.tests[test]?.results ?? {}).indexOf(result);
    marks[at] = (place + 1) | GIVEN | (openers.has(at) && era === job.era ? FRESH : 0);
  }
  for (const { finding, state } of job.remedies) {
    const row = findings.indexOf(finding);
    if (state === 'not-mended' && row >= 0 && row < remedies) marks[ids.length + row] = 1;
  }
  bench.axes.forEach((axis, at) => {
    marks[ids.length + remedies + at] = (bench.states[at] ?? []).indexOf(stand[axis] ?? '');
  });
  return marks;
}
