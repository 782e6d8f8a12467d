import type { PastJob } from '../../../main/contract/index.ts';
import type { Asked, Session } from '../../shell/index.ts';

/** What a replay needs of the shop's records. */
export interface Past {
  /** Newest first. */
  readonly jobs: readonly PastJob[];
  readonly published: string | null;
  readonly revisions: readonly { readonly revisionId: string; readonly text: string }[];
}

/**
 * Reads a tree's last `limit` closed jobs, the text of every revision they were walked on, and that of the published one
 * (by its id; null where the tree is not published yet).
 */
export async function readPast(
  session: Session,
  treeId: string,
  published: string | null,
  limit: number,
): Promise<Asked<Past>> {
  const jobs = await session.ask((client, signal) => client.history.jobs({ treeId, limit }, { signal }));
  if (!jobs.ok) return jobs;
  const wanted = new Set(jobs.value.map(({ revisionId }) => revisionId));
  if (published !== null) wanted.add(published);
  const revisions: Past['revisions'][number][] = [];
  for (const revisionId of wanted) {
    const revision = await session.ask((client, signal) => client.trees.revision({ revisionId }, { signal }));
    if (!revision.ok) return revision;
    revisions.push({ revisionId, text: revision.value.text });
  }
  const text = revisions.find(({ revisionId }) => revisionId === published)?.text ?? null;
  return { ok: true, value: { jobs: jobs.value, published: text, revisions } };
}
