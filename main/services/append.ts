import { defaultAccuracy } from '../../trees/belief/index.ts';
import { advance, type JobEvent, type Reading } from '../../trees/chart/index.ts';
import type { Tree } from '../../trees/document/index.ts';
import type { StoredEvent } from '../contract/index.ts';
import type { Records } from '../records/index.ts';
import { answer, trouble, type Answer } from './answer.ts';
import { shownBeside } from './shown-beside.ts';
import { jobStateOf, treeOf, type Walks } from './walks.ts';

/** What the app asks to have recorded. */
export interface AppendRequest {
  readonly jobId: string;
  readonly seq: number;
  readonly technicianId: string;
  readonly event: JobEvent;
}

export interface Appended {
  readonly stored: StoredEvent;
  /** The job was closed by this event. */
  readonly closed: boolean;
}

/**
 * Records one event: the app's word is checked (technician, instrument), the event is made on the services' own copy of
 * the chart, and then committed. Durable when it answers; recorded in full or not at all. `moment` is the clock's now if absent.
 */
export function append(
  records: Records,
  walks: Walks,
  request: AppendRequest,
  moment?: number,
): Answer<Appended> {
  const { jobId, seq, technicianId, event } = request;
  const technician = workingTechnician(records, technicianId);
  if (!technician.ok) return technician;
  const at = walks.at(records, jobId, seq);
  if (!at.ok) return at.code === 'STALE' ? stale() : missing();
  const tree = treeOf(at.live);
  const accuracy = checkAccuracy(records, tree, event);
  if (!accuracy.ok) return accuracy;
  const advanced = advance(at.live.walk, event);
  if (!advanced.ok)
    return trouble('EVENT_REFUSED', '/event', advanced.refusal.message, advanced.refusal.help);
  const after = jobStateOf(advanced.walk);
  const isFirstRemedy = event.kind === 'start-remedy' && records.shown.isDue(jobId);
  const shown = isFirstRemedy ? shownBeside(records, tree, jobStateOf(at.live.walk)) : undefined;
  const appended = records.events.append({ jobId, seq, technicianId, event, after, tree, shown }, moment);
  if (!appended.ok) {
    walks.drop(jobId);
    return stale();
  }
  walks.keep(jobId, { walk: advanced.walk, events: seq + 1 });
  return answer({ stored: appended.stored, closed: appended.closed });
}

/** A technician who works here, by id. */
export function workingTechnician(records: Records, id: string): Answer<null> {
  const technician = records.technicians.find(id);
  if (technician === null) {
    return trouble(
      'NOT_FOUND',
      '/technicianId',
      'There is no such technician.',
      'Choose who is at the bench.',
    );
  }
  if (!technician.retired) return answer(null);
  return trouble(
    'NOT_FOUND',
    '/technicianId',
    `${technician.name} is retired.`,
    'Choose who is at the bench.',
  );
}

function missing(): Answer<never> {
  return trouble('NOT_FOUND', '/jobId', 'There is no such job.', 'Choose a job from the list.');
}

function stale(): Answer<never> {
  return trouble(
    'STALE_SEQUENCE',
    '/seq',
    'The job has been added to since it was read. Nothing was recorded.',
    'Read the job again, then answer what it asks now.',
  );
}

/** A reading weighs by its accuracy, so that must be the shop's own figure for the instrument, or the usual one. */
function checkAccuracy(records: Records, tree: Tree, event: JobEvent): Answer<null> {
  if ((event.kind !== 'answer' && event.kind !== 'correct') || event.reading === undefined)
    return answer(null);
  const test = Object.hasOwn(tree.tests, event.test) ? tree.tests[event.test] : undefined;
  if (test === undefined) return answer(null); // the chart refuses it, and says why
  const named = event.reading.instrument;
  if (named === undefined) return same(event.reading, defaultAccuracy(test.instrument));
  const instrument = records.instruments.find(named);
  if (instrument === null || instrument.retired || instrument.measures !== test.instrument) {
    return trouble(
      'NOT_FOUND',
      '/event/reading/instrument',
      'The shop has no such instrument in use for this test.',
      'Choose an instrument that measures what the test asks for, or none.',
    );
  }
  return same(event.reading, instrument);
}

function same(
  { accuracy }: Reading,
  known: { readonly percent: number; readonly constant: number },
): Answer<null> {
  if (accuracy.percent === known.percent && accuracy.constant === known.constant) return answer(null);
  return trouble(
    'EVENT_REFUSED',
    '/event/reading/accuracy',
    'The accuracy is not that of the instrument.',
    `Give ±(${String(known.percent)} % of the reading + ${String(known.constant)}).`,
  );
}
