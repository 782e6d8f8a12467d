import { pairedMean, type PairedMean } from './paired-mean.ts';
import type { JobReplay } from './replay-job.ts';

/** How many jobs of each kind. `same`, `elsewhere`, `stops`, `gone` and `unreadable` add up to `jobs`. */
export interface ReplayCounts {
  readonly jobs: number;
  readonly same: number;
  readonly elsewhere: number;
  readonly stops: number;
  readonly gone: number;
  /** Jobs whose events do not fit their own tree. */
  readonly unreadable: number;
  /** Of those that come to the same end: by more, and by fewer minutes. */
  readonly longer: number;
  readonly shorter: number;
  /** Jobs that came to their confirmed finding and now come to another end; and the other way round. */
  readonly lost: number;
  readonly won: number;
  /** Jobs whose confirmed finding the draft no longer has. */
  readonly confirmedGone: number;
}

export interface ShopReplay<Job extends JobReplay = JobReplay> {
  readonly counts: ReplayCounts;
  /**
   * Draft less before, over the jobs that both bring to the same finding: minutes that are fewer because the draft now ends at another
   * finding, right or wrong, are no time saved.
   */
  readonly minutesMore: PairedMean | null;
  /** Worst first. */
  readonly jobs: readonly Job[];
}

/** What single replays come to together. `asked` is the number of jobs there were; those not among them are unreadable. */
export function shopReplayOf<Job extends JobReplay>(jobs: readonly Job[], asked: number): ShopReplay<Job> {
  const count = (is: (job: Job) => boolean): number => jobs.filter(is).length;
  const counts: ReplayCounts = {
    jobs: asked,
    same: count(({ verdict }) => verdict === 'same'),
    elsewhere: count(({ verdict }) => verdict === 'elsewhere'),
    stops: count(({ verdict }) => verdict === 'stops'),
    gone: count(({ verdict }) => verdict === 'gone'),
    unreadable: asked - jobs.length,
    longer: count((job) => lengthOf(job) === 'longer'),
    shorter: count((job) => lengthOf(job) === 'shorter'),
    lost: count(isLost),
    won: count(isWon),
    confirmedGone: count(({ confirmedGone }) => confirmedGone),
  };
  const alike = jobs.filter(({ verdict }) => verdict === 'same');
  const minutesMore = pairedMean(alike.flatMap(({ minutesMore: more }) => more ?? []));
  return { counts, minutesMore, jobs: worstFirst(jobs) };
}

/** Differences of minutes that come from adding them up in another order. */
const ROUNDING = 1e-9;

/** Of a job that comes to the same end, how long the draft takes beside the tree before; null of any other. */
export function lengthOf({ verdict, minutesMore }: JobReplay): 'longer' | 'shorter' | 'alike' | null {
  if (verdict !== 'same' || minutesMore === null) return null;
  if (Math.abs(minutesMore) < ROUNDING) return 'alike';
  return minutesMore > 0 ? 'longer' : 'shorter';
}

/** Whether the job came to its confirmed finding before, and would come to another end now. */
export function isLost({ verdict, before, confirmed }: JobReplay): boolean {
  return (
    verdict === 'elsewhere' &&
    confirmed !== null &&
    before.end.kind === 'finding' &&
    before.end.finding === confirmed
  );
}

/** Whether the job would come to its confirmed finding now, and did not before. */
export function isWon({ verdict, draft, confirmed }: JobReplay): boolean {
  return (
    verdict === 'elsewhere' &&
    confirmed !== null &&
    draft.end.kind === 'finding' &&
    draft.end.finding === confirmed
  );
}

/** Lost first, then symptoms gone, other ends, stops, then by the minutes more; won last. Equals keep their order. */
function worstFirst<Job extends JobReplay>(jobs: readonly Job[]): readonly Job[] {
  return jobs.toSorted((a, b) => rank(a) - rank(b) || (b.minutesMore ?? 0) - (a.minutesMore ?? 0));
}

function rank(job: JobReplay): number {
  if (isLost(job)) return 0;
  if (isWon(job)) return 5;
  return { gone: 1, elsewhere: 2, stops: 3, same: 4 }[job.verdict];
}
