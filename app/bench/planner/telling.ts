import type { History } from '../../../trees/belief/index.ts';
import type { PlannerQuestion } from './planner-question.ts';
import type { ToPlanner } from './protocol.ts';

/**
 * What to tell one planner's thread so that it can answer a question: the tree's text once, the history where it is not
 * the one last told of that tree, then the question.
 */
export function openTelling(): (number: number, question: PlannerQuestion) => readonly ToPlanner[] {
  const told = new Map<string, { readonly history: History; readonly version: number }>();
  return (number, question) => {
    const { text, history, ...asked } = question;
    const { revisionId } = question;
    const last = told.get(revisionId);
    const isNew = last?.history !== history;
    const version = (last?.version ?? 0) + (isNew ? 1 : 0);
    told.set(revisionId, { history, version });
    return [
      ...(last === undefined ? [{ kind: 'tree', revisionId, text } as const] : []),
      ...(isNew ? [{ kind: 'history', revisionId, version, history } as const] : []),
      { kind: 'ask', number, version, ...asked },
    ];
  };
}
