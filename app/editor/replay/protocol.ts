import type { PastJob } from '../../../main/contract/index.ts';
import type { JobReplay } from '../../../trees/replay/index.ts';

/** What a replay's thread is told: once, as it replays once. Trees cross as texts, and are read there. */
export interface ToReplayer {
  readonly draft: string;
  /** The published tree's text; null where there is none yet. */
  readonly published: string | null;
  /** Every revision that one of the jobs was walked on. */
  readonly revisions: readonly { readonly revisionId: string; readonly text: string }[];
  readonly jobs: readonly PastJob[];
}

/** The replay of one job; `jobId` says of which. */
export interface ReplayedJob extends JobReplay {
  readonly jobId: string;
}

export type FromReplayer =
  | { readonly kind: 'progress'; readonly done: number }
  /** Jobs that cannot be read are not among them. */
  | { readonly kind: 'done'; readonly replayed: readonly ReplayedJob[] }
  | { readonly kind: 'failed'; readonly message: string };
