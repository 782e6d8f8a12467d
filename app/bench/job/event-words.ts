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

/** Puts one event of a job into words. */
export function eventWords(tree: Tree, event: JobEvent): EventWords {
  switch (event.kind) {
    case 'answer':
    case 'correct':
      return {
        what: `${testTitle(tree, event.test)}${event.kind === 'correct' ? ' (corrected)' : ''}`,
        came: resultTitle(tree, event.test, event.result),
        reading: readingWords(tree, event),
      };
    case 'settle':
      return line('Contradiction settled', event.result === null ? 'Neither stands' : 'One stands');
    case 'skip':
      return line(
        `${testTitle(tree, event.test)}, skipped: ${event.reason}`,
        `as ${resultTitle(tree, event.test, event.as)}`,
      );
    case 'turn-to':
      return line(`Turned to ${testTitle(tree, event.test)}`);
    case 'turn-back':
      return line('Turned back to the path');
    case 'change':
      return line(tree.bench[event.axis]?.title ?? event.axis, stateTitle(tree, event.axis, event.to));
    case 'start-remedy':
      return line('Remedy taken in hand', event.what ?? findingTitle(tree, event.finding));
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

function line(what: string, came = ''): EventWords {
  return { what, came, reading: '' };
}
