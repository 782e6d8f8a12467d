import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout } from 'node:timers/promises';
import Sqlite from 'better-sqlite3';
import { openRecords, type Records } from '../../main/records/index.ts';
import { answer } from '../../main/services/answer.ts';
import { addLibrary, append, makeDemo, startJob } from '../../main/services/index.ts';
import { openReviewer, type Reviewer } from '../../main/services/review/index.ts';
import { createWalks } from '../../main/services/walks.ts';
import type { JobEvent } from '../../trees/chart/index.ts';
import { multiplyFacts } from '../support/multiply-facts.ts';
import { smallTree } from '../support/trees.ts';
import type { Measure } from './measure.ts';

const DRAWN = 500;
const TIMES = 500;
const ROUNDS = 400;
const WARM_UP = 30;
/** Milliseconds for the question to reach the thread; waited before every step, so that all find the processor alike. */
const UNDER_WAY = 4;

/**
 * A step of a job appended through the services while the thread makes a review of a quarter of a million closed jobs, against
 * one appended while it makes none, taking turns in one run. Two are appended without in every round: how far their medians lie
 * apart says what is noise. Rounds in which the review was there before the step was done do not count.
 */
export default async function benchmark(): Promise<Measure[]> {
  const folder = mkdtempSync(join(tmpdir(), 'ohmward-bench-'));
  const file = join(folder, 'shop.sqlite');
  const drawn = await makeShop(file);
  const opening = openRecords({ file });
  if (!opening.ok) throw new Error(opening.message);
  const reviewer = openReviewer({ file, ready: () => answer(null) });
  try {
    await opening.records.integrity.done;
    const jobs = await jobsReviewed(reviewer);
    if (jobs < 200_000 || jobs !== drawn * TIMES) throw new Error(`The review is of ${String(jobs)} jobs.`);
    return measures(await takeTurns(shellTurner(opening.records), reviewer), jobs);
  } finally {
    await reviewer.end();
    await opening.records.close();
    rmSync(folder, { recursive: true, force: true });
  }
}

/** The demo's jobs with each fact so many times; gives the number of jobs that were closed before. */
async function makeShop(file: string): Promise<number> {
  const opening = openRecords({ file });
  if (!opening.ok) throw new Error(opening.message);
  addLibrary(opening.records);
  const made = makeDemo({ records: opening.records, jobs: DRAWN, seed: 1, until: Date.UTC(2026, 0, 31) });
  if (!made.ok) throw new Error(made.message);
  const { closed } = opening.records.tallies();
  await opening.records.close();
  const db = new Sqlite(file);
  db.transaction(multiplyFacts)(db, TIMES);
  db.close();
  return closed;
}

const ALL = { from: null, to: null, tree: null, board: null, technician: null, window: 90 };
const NOW = Date.UTC(2026, 0, 31);

async function jobsReviewed(reviewer: Reviewer, window = 90): Promise<number> {
  const given = await reviewer.ask({ kind: 'figures', filter: { ...ALL, window }, now: NOW });
  if (given?.ok !== true) throw new Error(given?.trouble.message ?? 'given up');
  return given.value.review.jobs;
}

interface Times {
  readonly without: number[];
  readonly again: number[];
  readonly beside: number[];
  readonly review: number[];
}

async function takeTurns(turn: () => void, reviewer: Reviewer): Promise<Times> {
  const times: Times = { without: [], again: [], beside: [], review: [] };
  for (let round = -WARM_UP; round < ROUNDS; round += 1) {
    const without = await step(turn);
    const from = performance.now();
    let isMade = false;
    const review = jobsReviewed(reviewer, 1 + ((round + WARM_UP) % 700)).then(() => {
      isMade = true;
      return performance.now() - from;
    });
    const beside = await step(turn);
    // Were the review there by now, its message would be taken in this turn of the loop.
    await new Promise((resolve) => setImmediate(resolve));
    const wasBeside = !isMade;
    const took = await review;
    const again = await step(turn);
    if (round < 0 || !wasBeside) continue;
    times.without.push(without);
    times.beside.push(beside);
    times.again.push(again);
    times.review.push(took);
  }
  if (times.beside.length < ROUNDS / 2) throw new Error('Most reviews were made before the step was.');
  return times;
}

/** Milliseconds that one step takes. */
async function step(turn: () => void): Promise<number> {
  await setTimeout(UNDER_WAY);
  const start = performance.now();
  turn();
  return performance.now() - start;
}

function measures({ without, again, beside, review }: Times, jobs: number): Measure[] {
  const [alone, besideIt, noise] = [median(without), median(beside), median(again) / median(without)];
  return [
    { name: `review of ${String(jobs)} jobs, with the step meanwhile`, figure: median(review), unit: 'ms' },
    { name: `rounds of ${String(ROUNDS)} that count`, figure: beside.length, unit: '' },
    { name: 'step with no review made', figure: alone, unit: 'ms' },
    { name: 'step while one is made', figure: besideIt, unit: 'ms' },
    { name: 'noise: ratio of the medians of two that are alike', figure: noise, unit: '×' },
    {
      name: 'ratio of medians',
      figure: besideIt / median([...without, ...again]),
      unit: '×',
      limit: { atMost: 1.25 },
      against: 'steps with no review made in the same run',
    },
  ];
}

const EVENTS_A_JOB = 20;

/** Opens and closes the shell of a small unit, one step a call. */
function shellTurner(records: Records): () => void {
  const tree = smallTree();
  const bytes = new TextEncoder().encode(JSON.stringify(tree));
  const { revisionId } = records.addRevision({ bytes, tree, source: 'import', note: '', pictures: [] });
  const technicianId = records.technicians.list()[0]?.id ?? '';
  const ticket = { revisionId, symptom: 'no-sound', board: '', serial: 'B-1', reference: '', technicianId };
  const walks = createWalks();
  let jobId = '';
  let seq = EVENTS_A_JOB;
  return () => {
    if (seq === EVENTS_A_JOB) {
      const started = startJob(records, ticket, false);
      if (!started.ok) throw new Error(started.trouble.message);
      [jobId, seq] = [started.value.jobId, 0];
    }
    const event: JobEvent = { kind: 'change', axis: 'shell', to: seq % 2 === 0 ? 'open' : 'closed' };
    const appended = append(records, walks, { jobId, seq, technicianId, event });
    if (!appended.ok) throw new Error(appended.trouble.message);
    seq += 1;
  };
}

function median(times: readonly number[]): number {
  return [...times].sort((a, b) => a - b)[Math.floor(times.length / 2)] ?? 0;
}
