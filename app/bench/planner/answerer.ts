import { compileFaultModel, type FaultModel } from '../../../trees/belief/index.ts';
import { readAndCheck, type Tree } from '../../../trees/document/index.ts';
import { advise } from '../../../trees/plan/index.ts';
import type { FromPlanner, ToPlanner } from './protocol.ts';

type Asked = Extract<ToPlanner, { kind: 'ask' }>;

interface Held {
  readonly version: number;
  readonly model: FaultModel;
}

/**
 * Answers what the window tells the planner's thread, message by message: trees and histories are kept, a question is
 * answered or said to have failed. `now` gives milliseconds.
 */
export function openAnswerer(now: () => number): (message: ToPlanner) => FromPlanner | null {
  const trees = new Map<string, Tree>();
  const models = new Map<string, Held>();

  function answer(asked: Asked): FromPlanner {
    const { number, revisionId, version, job, bench, rate, next } = asked;
    const held = models.get(revisionId);
    if (held?.version !== version) throw new Error(`unknown-history: revision ${revisionId}`);
    const from = now();
    const advice = advise({ model: held.model, job, bench, rate }, next);
    return { kind: 'answer', number, advice, milliseconds: now() - from };
  }

  return (message) => {
    switch (message.kind) {
      case 'tree': {
        const { tree } = readAndCheck(message.text);
        if (tree !== null) trees.set(message.revisionId, tree);
        return null;
      }
      case 'history': {
        const tree = trees.get(message.revisionId);
        if (tree === undefined) return null;
        const model = compileFaultModel(tree, message.history);
        models.set(message.revisionId, { version: message.version, model });
        return null;
      }
      case 'ask':
        return attempt(message.number, () => answer(message));
    }
  };
}

function attempt(number: number, answer: () => FromPlanner): FromPlanner {
  try {
    return answer();
  } catch (error) {
    return { kind: 'failed', number, message: error instanceof Error ? error.message : String(error) };
  }
}
