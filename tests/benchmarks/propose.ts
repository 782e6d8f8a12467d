import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Sqlite from 'better-sqlite3';
import { openRecords } from '../../main/records/index.ts';
import { addLibrary, makeDemo } from '../../main/services/index.ts';
import { compileFaultModel, type FaultModel } from '../../trees/belief/index.ts';
import { propose, type Proposal } from '../../trees/plan/index.ts';
import { simulateJobs } from '../support/simulate-jobs.ts';
import type { Measure } from './measure.ts';

const DEMO = { jobs: 2000, seed: 20261126, until: Date.UTC(2026, 0, 31) };
const SIMULATED = { jobs: 20_000, seed: 20261127 };
/** Standard errors by which simulation must show a saving, and may differ from what is evaluated. */
const [SHOWN, APART] = [2, 4];

/**
 * Expected minutes to a proven repair on the shipped trees, with the history of 2,000 invented jobs: as authored and as
 * proposed, symptom by symptom, weighed by how often the demo's units came with each. The same units, 20,000 in all, are
 * then walked through both by the chart's own machine. Throws where that shows no saving, or another than is evaluated.
 */
export default async function benchmark(): Promise<Measure[]> {
  const shop = await demoShop();
  const compared = shop.map((one) => {
    const made = proposed(one);
    console.log(`  ${lineOf(made)}`);
    return made;
  });
  const evaluated = total(compared, ({ before, after }) => [before, after]);
  const simulated = total(compared, ({ simulated: { before, after } }) => [before, after]);
  const error = Math.sqrt(
    compared.reduce((sum, { share, simulated: { error } }) => sum + (share * error) ** 2, 0),
  );
  const [expected, shown] = [evaluated, simulated].map(([before, after]) => before - after);
  const said = `${fixed(shown)} ± ${fixed(error)} minutes simulated, ${fixed(expected)} evaluated`;
  if (!((shown ?? 0) > SHOWN * error)) throw new Error(`No saving is shown: ${said}.`);
  if (Math.abs((shown ?? 0) - (expected ?? 0)) > APART * error)
    throw new Error(`The savings are not the same: ${said}.`);
  const slowest = compared.reduce((most, one) => (one.seconds > most.seconds ? one : most));
  const jobs = `${String(SIMULATED.jobs)} jobs`;
  return [
    ratio('minutes to a proven repair, proposed / authored, evaluated', evaluated, 0.99),
    ratio(`the same, ${jobs} simulated (${said})`, simulated, 0.995),
    { name: `propose, slowest symptom (${slowest.symptom})`, figure: slowest.seconds, unit: 's' },
  ];
}

interface Case {
  readonly model: FaultModel;
  readonly symptom: string;
  /** Of all the demo's jobs, those of this symptom. */
  readonly share: number;
}

interface Compared extends Case {
  readonly seconds: number;
  readonly before: number;
  readonly after: number;
  readonly simulated: { readonly before: number; readonly after: number; readonly error: number };
}

async function demoShop(): Promise<readonly Case[]> {
  const folder = mkdtempSync(join(tmpdir(), 'ohmward-bench-'));
  const file = join(folder, 'shop.sqlite');
  const opening = openRecords({ file });
  if (!opening.ok) throw new Error(opening.message);
  const { records } = opening;
  try {
    addLibrary(records);
    const made = makeDemo({ records, ...DEMO });
    if (!made.ok) throw new Error(made.message);
    const came = jobsBySymptom(file);
    return records.trees.list().flatMap(({ treeId, revisionId }) => {
      const model = compileFaultModel(records.charts.of(revisionId).tree, records.historyOf(treeId));
      return Object.keys(model.tree.symptoms).map((symptom) => ({
        model,
        symptom,
        share: (came.get(`${revisionId}/${symptom}`) ?? 0) / made.jobs,
      }));
    });
  } finally {
    await records.close();
    rmSync(folder, { recursive: true, force: true });
  }
}

function jobsBySymptom(file: string): ReadonlyMap<string, number> {
  const db = new Sqlite(file, { readonly: true });
  const rows = db
    .prepare<[], { readonly name: string; readonly jobs: number }>(
      `SELECT revision_id || '/' || symptom AS name, count(*) AS jobs FROM job GROUP BY name`,
    )
    .all();
  db.close();
  return new Map(rows.map(({ name, jobs }) => [name, jobs]));
}

function proposed(one: Case): Compared {
  const { model, symptom } = one;
  const start = performance.now();
  const proposal = propose({ model, symptom, goal: 'fix', method: 'fast', rate: null });
  const seconds = (performance.now() - start) / 1000;
  const before = proposal.before?.expectedMinutes ?? NaN;
  return {
    ...one,
    seconds,
    before,
    after: proposal.after.expectedMinutes,
    simulated: simulated(one, proposal),
  };
}

/** The same units walked through both trees, and the standard error of what they save a unit. */
function simulated({ model, symptom, share }: Case, { tree }: Proposal): Compared['simulated'] {
  const jobs = Math.round(SIMULATED.jobs * share);
  const simulation = { model, symptom, goal: 'fix', rate: null, jobs, seed: SIMULATED.seed } as const;
  const authored = simulateJobs(simulation);
  const other = simulateJobs({ ...simulation, tree });
  const saved = authored.minutes.map((minutes, job) => minutes - (other.minutes[job] ?? NaN));
  const mean = saved.reduce((sum, minutes) => sum + minutes, 0) / jobs;
  const variance = saved.reduce((sum, minutes) => sum + (minutes - mean) ** 2, 0) / (jobs - 1);
  return {
    before: authored.meanMinutes,
    after: other.meanMinutes,
    error: Math.sqrt(variance / jobs),
  };
}

function total(
  compared: readonly Compared[],
  of: (one: Compared) => readonly [before: number, after: number],
): readonly [before: number, after: number] {
  const sum = (which: 0 | 1) => compared.reduce((so, one) => so + one.share * of(one)[which], 0);
  return [sum(0), sum(1)];
}

function ratio(name: string, [before, after]: readonly [number, number], atMost: number): Measure {
  const against = `${fixed(before)} minutes as authored`;
  return { name, figure: after / before, unit: '×', limit: { atMost }, against };
}

function lineOf({ symptom, share, before, after, simulated, seconds }: Compared): string {
  const shown = simulated.before - simulated.after;
  return (
    `${symptom} (${(100 * share).toFixed(1)} % of jobs): ${fixed(before)} to ${fixed(after)} min, ` +
    `${fixed(before - after)} saved; simulated ${fixed(simulated.before)} to ${fixed(simulated.after)}, ` +
    `${fixed(shown)} ± ${fixed(simulated.error)}; ${seconds.toFixed(1)} s`
  );
}

function fixed(minutes = NaN): string {
  return minutes.toFixed(3);
}
