import type { Chart } from '../chart/index.ts';
import { own } from '../document/index.ts';
import { recordedJob, type JobRecord, type RecordedJob } from './recorded.ts';
import { walkAgain, type ReplayedWalk, type ReplayEnd } from './walk-again.ts';

/**
 * How a draft does on a job beside the tree it is compared with:
 * - `same`: it comes to the same end;
 * - `elsewhere`: it comes to another;
 * - `stops`: it asks for something that the job did not record;
 * - `gone`: it no longer has the job's symptom.
 */
export type ReplayVerdict = 'same' | 'elsewhere' | 'stops' | 'gone';

export interface JobReplay {
  readonly verdict: ReplayVerdict;
  readonly draft: ReplayedWalk;
  /** The same job on the tree that the draft is compared with. */
  readonly before: ReplayedWalk;
  /** The published tree, or the one the job was walked on where there is none or the job does not answer it. */
  readonly comparedWith: 'published' | 'walked-on';
  /** Minutes of the draft less those before; null where one of them comes to no finding. */
  readonly minutesMore: number | null;
  /** The job's confirmed finding; null where there is none. */
  readonly confirmed: string | null;
  /** The draft no longer has the confirmed finding. */
  readonly confirmedGone: boolean;
}

/**
 * Replays a closed job on a draft and on the published tree (null where there is none yet). Null where the job's events do
 * not fit its own tree.
 */
export function replayJob(draft: Chart, published: Chart | null, record: JobRecord): JobReplay | null {
  const recorded = recordedJob(record);
  if (recorded === null) return null;
  const after = walkAgain(draft, recorded);
  const { before, comparedWith } = comparison(published, recorded);
  const isBoth = after.end.kind === 'finding' && before.end.kind === 'finding';
  const confirmed = record.finding;
  return {
    verdict: verdictOf(before.end, after.end),
    draft: after,
    before,
    comparedWith,
    minutesMore: isBoth ? after.minutes - before.minutes : null,
    confirmed,
    confirmedGone:
      confirmed !== null &&
      own(record.chart.tree.findings, confirmed) !== undefined &&
      own(draft.tree.findings, confirmed) === undefined,
  };
}

/** A job walked on an older revision may not answer all that the published one asks; then its own tree is the measure. */
function comparison(
  published: Chart | null,
  recorded: RecordedJob,
): Pick<JobReplay, 'before' | 'comparedWith'> {
  const walked = published === null ? null : walkAgain(published, recorded);
  const isAnswered = walked !== null && walked.end.kind !== 'stops' && walked.end.kind !== 'no-symptom';
  return isAnswered
    ? { before: walked, comparedWith: 'published' }
    : { before: walkAgain(recorded.record.chart, recorded), comparedWith: 'walked-on' };
}

function verdictOf(before: ReplayEnd, after: ReplayEnd): ReplayVerdict {
  if (after.kind === 'no-symptom') return 'gone';
  if (isSameEnd(before, after)) return 'same';
  return after.kind === 'stops' ? 'stops' : 'elsewhere';
}

/** An interlock's number may change from one revision to the next, so that barred is barred. */
function isSameEnd(one: ReplayEnd, other: ReplayEnd): boolean {
  if (one.kind === 'finding') return other.kind === 'finding' && one.finding === other.finding;
  if (one.kind === 'stops') return other.kind === 'stops' && one.test === other.test;
  return one.kind === other.kind;
}
