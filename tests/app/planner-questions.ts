import type { PlannerQuestion } from '../../app/bench/planner/planner-question.ts';
import { NO_HISTORY } from '../../trees/belief/index.ts';
import { firstSituation } from '../../trees/chart/index.ts';
import { dunlinDocument, dunlinTree } from '../support/dunlin-tree.ts';

const TEXT = JSON.stringify(dunlinDocument());

/** A question about a Dunlin before anything was done. */
export function dunlinQuestion(changes: Partial<PlannerQuestion> = {}): PlannerQuestion {
  const { job, bench } = firstSituation(dunlinTree(), 'faint');
  return {
    revisionId: 'revision-1',
    text: TEXT,
    history: NO_HISTORY,
    job,
    bench,
    rate: null,
    next: { kind: 'test', id: 'row-look' },
    ...changes,
  };
}
