import { readAndCheck, type Problem, type Tree } from '../../../trees/document/index.ts';
import { lengthOf, shopReplayOf, type ShopReplay } from '../../../trees/replay/index.ts';
import type { PastJob } from '../../../main/contract/index.ts';
import type { Session, Trouble } from '../../shell/index.ts';
import type { FromReplayer, ReplayedJob } from './protocol.ts';
import { readPast, type Past } from './read-past.ts';
import type { StartReplay } from './replay-thread.ts';

/** How many closed jobs can be asked for. */
export const LIMITS = [50, 100, 200, 500] as const;

/** Which jobs of a replay are listed. */
export type ReplayFilter = 'all' | 'elsewhere' | 'stops' | 'longer' | 'shorter' | 'same';

/** What came of a replay, and the trees that its jobs are told in. */
export interface ReplayReport {
  readonly shop: ShopReplay<ReplayedJob>;
  readonly jobs: ReadonlyMap<string, PastJob>;
  readonly draft: Tree;
  /** By revision. */
  readonly walkedOn: ReadonlyMap<string, Tree>;
  readonly published: Tree | null;
}

export type ReplayStage =
  | { readonly kind: 'idle' }
  | { readonly kind: 'reading' }
  | { readonly kind: 'running'; readonly done: number; readonly of: number }
  /** The tree has no closed job. */
  | { readonly kind: 'none' }
  | { readonly kind: 'report'; readonly report: ReplayReport }
  | { readonly kind: 'trouble'; readonly trouble: Trouble };

/** What is replayed: the draft's text, its tree's id, and the published revision it is compared with. */
export interface ReplayAsked {
  readonly text: string;
  readonly treeId: string;
  readonly published: string | null;
}

/** The replay of a shop's closed jobs on a draft: asked for, under way, done or stopped; and which jobs are listed. */
export class ReplayDesk {
  readonly #session: Session;
  readonly #start: StartReplay;
  readonly #asked: ReplayAsked;
  readonly #draft: Tree | null;
  readonly errors: readonly Problem[];
  /** Rises with every run: what an earlier one still says is not heard. */
  #run = 0;
  #stop: (() => void) | null = null;
  stage = $state.raw<ReplayStage>({ kind: 'idle' });
  limit = $state<number>(100);
  filter = $state<ReplayFilter>('all');
  /** The job whose steps are shown; null where none are. */
  shown = $state<string | null>(null);

  readonly report = $derived(this.stage.kind === 'report' ? this.stage.report : null);
  readonly listed: readonly ReplayedJob[] = $derived(
    this.report?.shop.jobs.filter((job) => isListed(job, this.filter)) ?? [],
  );

  constructor(session: Session, start: StartReplay, asked: ReplayAsked) {
    const { tree, errors } = readAndCheck(asked.text);
    this.#session = session;
    this.#start = start;
    this.#asked = asked;
    this.#draft = tree;
    this.errors = errors;
  }

  get isBusy(): boolean {
    return this.stage.kind === 'reading' || this.stage.kind === 'running';
  }

  /** Replays the last {@link ReplayDesk.limit} closed jobs. */
  async run(): Promise<void> {
    if (this.#draft === null) return;
    this.cancel();
    const run = this.#run;
    this.filter = 'all';
    this.shown = null;
    this.stage = { kind: 'reading' };
    const { treeId, published } = this.#asked;
    const past = await readPast(this.#session, treeId, published, this.limit);
    if (run !== this.#run) return;
    if (!past.ok) this.stage = { kind: 'trouble', trouble: past.trouble };
    else if (past.value.jobs.length === 0) this.stage = { kind: 'none' };
    else this.#begin(run, this.#draft, past.value);
  }

  /** Stops what is under way. */
  cancel(): void {
    this.#run += 1;
    this.#stop?.();
    this.#stop = null;
    if (this.isBusy) this.stage = { kind: 'idle' };
  }

  /** How many of the replayed jobs a filter lists. */
  count(filter: ReplayFilter): number {
    return this.report?.shop.jobs.filter((job) => isListed(job, filter)).length ?? 0;
  }

  show(jobId: string): void {
    this.shown = this.shown === jobId ? null : jobId;
  }

  #begin(run: number, draft: Tree, past: Past): void {
    const { jobs, published, revisions } = past;
    this.stage = { kind: 'running', done: 0, of: jobs.length };
    this.#stop = this.#start(
      { draft: this.#asked.text, published, revisions, jobs },
      (message) => run === this.#run && this.#heard(message, draft, past),
      (reason) => run === this.#run && this.#failed(reason),
    );
  }

  #heard(message: FromReplayer, draft: Tree, past: Past): void {
    switch (message.kind) {
      case 'progress':
        this.stage = { kind: 'running', done: message.done, of: past.jobs.length };
        return;
      case 'failed':
        return this.#failed(message.message);
      case 'done':
        this.cancel();
        this.stage = { kind: 'report', report: reportOf(draft, past, message.replayed) };
    }
  }

  #failed(reason: string): void {
    this.cancel();
    this.stage = {
      kind: 'trouble',
      trouble: {
        code: 'REPLAY_FAILED',
        message: 'The jobs could not be replayed.',
        where: reason,
        help: 'Nothing was changed. Try again; if it stays so, tell whoever looks after Ohmward.',
      },
    };
  }
}

function reportOf(
  draft: Tree,
  { jobs, published, revisions }: Past,
  replayed: readonly ReplayedJob[],
): ReplayReport {
  const trees = revisions.flatMap(({ revisionId, text }) => {
    const { tree } = readAndCheck(text);
    return tree === null ? [] : [{ revisionId, text, tree }];
  });
  return {
    shop: shopReplayOf(replayed, jobs.length),
    jobs: new Map(jobs.map((job) => [job.jobId, job])),
    draft,
    walkedOn: new Map(trees.map(({ revisionId, tree }) => [revisionId, tree])),
    published: trees.find(({ text }) => text === published)?.tree ?? null,
  };
}

function isListed(job: ReplayedJob, filter: ReplayFilter): boolean {
  switch (filter) {
    case 'all':
      return true;
    case 'elsewhere':
      return job.verdict === 'elsewhere';
    case 'stops':
      return job.verdict === 'stops' || job.verdict === 'gone';
    case 'longer':
    case 'shorter':
      return lengthOf(job) === filter;
    case 'same':
      return job.verdict === 'same';
  }
}
