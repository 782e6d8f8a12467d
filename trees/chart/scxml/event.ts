import type { JobEvent } from '../event.ts';
import type { JobState } from '../job.ts';

/**
 * The name of the SCXML event that an export of {@link toScxml} takes for a job event, given what the job knew before it:
 * `answer.TEST.RESULT`, `correct.TEST.RESULT`, `settle.TEST.RESULT`, `settle-neither.TEST`, `skip.TEST.RESULT`,
 * `turn-to.TEST`, `turn-back`, `change.AXIS.STATE`, `start-remedy.FINDING`, `remedy-done`, `give-up-remedy` and
 * `close.OUTCOME`. Null for `take-back`, for a skip that goes on as no result, and for settling where nothing is contradicted.
 */
export function scxmlEvent(event: JobEvent, job: JobState): string | null {
  switch (event.kind) {
    case 'answer':
    case 'correct':
      return `${event.kind}.${event.test}.${event.result}`;
    case 'settle': {
      const test = job.contradiction?.test;
      if (test === undefined) return null;
      return event.result === null ? `settle-neither.${test}` : `settle.${test}.${event.result}`;
    }
    case 'skip':
      return event.as === undefined ? null : `skip.${event.test}.${event.as}`;
    case 'turn-to':
      return `turn-to.${event.test}`;
    case 'change':
      return `change.${event.axis}.${event.to}`;
    case 'start-remedy':
      return `start-remedy.${event.finding}`;
    case 'close':
      return `close.${event.outcome}`;
    case 'turn-back':
    case 'remedy-done':
    case 'give-up-remedy':
      return event.kind;
    case 'take-back':
      return null;
  }
}
