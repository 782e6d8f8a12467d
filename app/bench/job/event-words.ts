import type { JobEvent } from '../../../trees/chart/index.ts';
import type { Tree } from '../../../trees/document/index.ts';
import { findingTitle, OUTCOME_WORDS, resultTitle, stateTitle, testTitle } from './act-words.ts';
import { readingWords } from './reading-words.ts';

/** An event as a line of the trail: what was done, what came of it, and the reading. */
export interface EventWords {
  readonly what: string;
  readonly came: string;
  readonly reading: string;
}

/** Puts one event of a job into words. `before` are the job's events before it: what was settled stands there. */
export function eventWords(tree: Tree, event: JobEvent, before: readonly JobEvent[]): EventWords {
  switch (event.kind) {
    case 'answer':
    case 'correct':
      return {
        what: `${testTitle(tree, event.test)}${event.kind === 'correct' ? ' (corrected)' : ''}`,
        came: resultTitle(tree, event.test, event.result),
        reading: readingWords(tree, event),
      };
    case 'settle':
      return settledWords(tree, event.result, before);
    case 'skip':
      return line(
        `${testTitle(tree, event.test)}, skipped: ${event.reason}`,
        event.as === undefined ? 'cannot be made here' : `as ${resultTitle(tree, event.test, event.as)}`,
      );
    case 'turn-to':
      return line(`Turned to ${testTitle(tree, event.test)}${adviceWords(event)}`);
    case 'turn-back':
      return line('Turned back to the path');
    case 'change':
      return line(tree.bench[event.axis]?.title ?? event.axis, stateTitle(tree, event.axis, event.to));
    case 'start-remedy':
      return line(
        `Remedy taken in hand${adviceWords(event)}`,
        event.what ?? findingTitle(tree, event.finding),
      );
    case 'remedy-done':
      return line('Remedy done');
    case 'give-up-remedy':
      return line(`Remedy left undone: ${event.reason}`);
    case 'close':
      return line('Closed', OUTCOME_WORDS[event.outcome].title);
    case 'take-back':
      return line('Taken back');
  }
}

function adviceWords({ advised }: { readonly advised?: true | undefined }): string {
  return advised === true ? ' on the planner’s advice' : '';
}

function settledWords(tree: Tree, result: string | null, before: readonly JobEvent[]): EventWords {
  const test = before.findLast((event) => event.kind === 'answer')?.test ?? '';
  const stands = result === null ? 'Neither stands' : `${resultTitle(tree, test, result)} stands`;
  return line(`${testTitle(tree, test)}, contradiction settled`, stands);
}

function line(what: string, came = ''): EventWords {
  return { what, came, reading: '' };
}
