import {
  advance,
  startWalk,
  type Answer,
  type Chart,
  type JobEvent,
  type JobState,
  type Outcome,
  type RemedyTried,
  type Skip,
} from '../chart/index.ts';
import { own } from '../document/index.ts';

/** A closed job as it was recorded, and the chart of the tree revision it was walked on. */
export interface JobRecord {
  readonly chart: Chart;
  readonly symptom: string;
  /** All of them in order, take-backs among them. */
  readonly events: readonly JobEvent[];
  readonly outcome: Outcome;
  /** The confirmed finding; null where there is none. */
  readonly finding: string | null;
}

/** What a job knew just before its next remedy was done, or at its end. */
export interface RecordedEra {
  readonly answers: ReadonlyMap<string, Answer>;
  readonly skips: ReadonlyMap<string, Skip>;
  /** The remedy that ended the era; `mended` is null where no proof was finished. Null at the job's end. */
  readonly remedy: { readonly finding: string; readonly mended: boolean | null } | null;
}

/** A job's answers as they can be given again: by era, as corrected later, and what was taken back left out. */
export interface RecordedJob {
  readonly record: JobRecord;
  readonly eras: readonly RecordedEra[];
}

/** Sorts what a closed job recorded. Null where its events do not fit its own tree, which the records do not let happen. */
export function recordedJob(record: JobRecord): RecordedJob | null {
  const { chart, symptom } = record;
  if (own(chart.tree.symptoms, symptom) === undefined) return null;
  const states: JobState[] = [];
  let walk = startWalk(chart, symptom);
  for (const event of keptOf(record.events)) {
    if (event.kind === 'remedy-done') states.push(walk.snapshot.context.job);
    const next = advance(walk, event);
    if (!next.ok) return null;
    walk = next.walk;
  }
  const last = walk.snapshot.context.job;
  const done = last.remedies.filter(({ state }) => DONE[state] !== undefined);
  const asLeft = correctedAnswers(last);
  const eras = [...states, last].map((job, era): RecordedEra => {
    const remedy = done[era];
    return {
      answers: new Map(job.answers.map((answer) => [answer.test, asLeft.get(keyOf(answer)) ?? answer])),
      skips: new Map(job.skips.map((skip) => [skip.test, skip])),
      remedy: remedy === undefined ? null : { finding: remedy.finding, mended: DONE[remedy.state] ?? null },
    };
  });
  return { record, eras };
}

/** The events that were not taken back. */
export function keptOf(events: readonly JobEvent[]): readonly JobEvent[] {
  const kept: JobEvent[] = [];
  for (const event of events) {
    if (event.kind === 'take-back') kept.pop();
    else kept.push(event);
  }
  return kept;
}

/** Whether a remedy in this state mended the unit; undefined where it was never done. */
const DONE: Readonly<Partial<Record<RemedyTried['state'], boolean | null>>> = {
  proving: null,
  mended: true,
  'not-mended': false,
};

/** Every answer as it stood at the end: one corrected after its remedy was done is corrected wherever it stands. */
function correctedAnswers({ answers, remedies }: JobState): ReadonlyMap<string, Answer> {
  const all = [...remedies.flatMap(({ evidence, proofs }) => [...evidence, ...proofs]), ...answers];
  return new Map(all.map((answer) => [keyOf(answer), answer]));
}

function keyOf({ test, era }: Answer): string {
  return `${String(era)}/${test}`;
}
