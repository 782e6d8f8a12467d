import type { Belief, FaultModel } from '../../../trees/belief/index.ts';
import type { Standing } from '../../../trees/chart/index.ts';
import type { Tree } from '../../../trees/document/index.ts';
import type { Job } from '../../../main/contract/index.ts';
import type { OpenJob } from '../job/open-job.svelte.ts';
import type { WalkDesk } from './walk-desk.svelte.ts';

/** All that an act's screen needs of a job that has been read. */
export interface ReadyWalk {
  readonly open: OpenJob;
  readonly desk: WalkDesk;
  readonly job: Job;
  readonly tree: Tree;
  readonly revisionId: string;
  readonly checksum: string;
  readonly model: FaultModel;
  readonly belief: Belief;
  readonly standing: Standing;
}

/** The job's parts together, or null until they are all there. */
export function readyWalk(open: OpenJob, desk: WalkDesk): ReadyWalk | null {
  const { job, shelved, model, belief, standing } = open;
  if (job === null || shelved === null || model === null || belief === null || standing === null) return null;
  const { tree, revisionId, checksum } = shelved;
  return { open, desk, job, tree, revisionId, checksum, model, belief, standing };
}
