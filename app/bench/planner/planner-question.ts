import type { Belief, History } from '../../../trees/belief/index.ts';
import type { Bench, JobState, Standing } from '../../../trees/chart/index.ts';
import type { TreeNext } from '../../../trees/plan/index.ts';

/** All that the planner has to know to say what to do next at one standing of a job. */
export interface PlannerQuestion {
  readonly revisionId: string;
  /** The tree revision's text; the planner reads it itself. */
  readonly text: string;
  readonly history: History;
  readonly job: JobState;
  readonly bench: Bench;
  /** What an hour of work costs, in the currency of parts' prices; null where parts do not count. */
  readonly rate: number | null;
  /** What the tree would do next; null where it has nothing to say. */
  readonly next: TreeNext | null;
}

/** What there is of a job that is being read or walked. */
interface Walked {
  readonly shelved: { readonly revisionId: string; readonly text: string } | null;
  readonly history: History | null;
  readonly standing: Standing | null;
  readonly belief: Belief | null;
}

/** What to ask the planner where a job stands; null where it is not asked, as where the answers fit no finding at all. */
export function questionAt(
  { shelved, history, standing, belief }: Walked,
  rate: number | null,
): PlannerQuestion | null {
  if (shelved === null || history === null || standing === null || belief?.impossible !== false) return null;
  const asked = askedAt(standing);
  if (asked === null) return null;
  const { revisionId, text } = shelved;
  const { job, bench } = standing;
  return { revisionId, text, history, job, bench, rate, ...asked };
}

/**
 * What the tree would do next, for the acts of which the planner is asked; null where it is not: while a remedy is in hand
 * or being proved, at a test the technician has turned to himself, and where there is nothing left to choose.
 */
export function askedAt({ act, job, allows }: Standing): { readonly next: TreeNext | null } | null {
  const remedy = job.remedies.at(-1)?.state;
  if (remedy === 'in-hand' || remedy === 'proving') return null;
  const isTurned = allows.has('turn-back');
  switch (act.kind) {
    case 'adrift':
    case 'barred':
      return { next: null };
    case 'finding':
      return { next: { kind: 'remedy', id: act.finding } };
    case 'test':
      return isTurned ? null : { next: { kind: 'test', id: act.test } };
    case 'change':
      return isTurned || act.wanted.kind !== 'test' ? null : { next: { kind: 'test', id: act.wanted.test } };
    case 'remedy':
    case 'contradiction':
    case 'mended':
    case 'closed':
      return null;
  }
}
