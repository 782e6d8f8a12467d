import type { Tree } from '../document/index.ts';
import type { Chart } from './chart.ts';
import { OUTCOMES } from './event.ts';
import { answerRegion } from './scxml/answer.ts';
import { benchRegions } from './scxml/bench.ts';
import { complaintRegion, intake } from './scxml/complaint.ts';
import { courseRegion } from './scxml/course.ts';
import { element, parallel, written, type Way } from './scxml/element.ts';
import { reachOf } from './scxml/reach.ts';
import { remedyRegions } from './scxml/remedy.ts';

export { scxmlConfiguration } from './scxml/configuration.ts';
export { scxmlEvent } from './scxml/event.ts';

/**
 * The chart of a whole tree as W3C SCXML 1.0 (Recommendation of 1 September 2015), for any interpreter. It keeps to the
 * elements of section 3 and `raise`, and to the null data model (appendix B.1): a condition is a single `In()`. The job's
 * symptom, answers, remedies, interlocks and bench axes are regions of one parallel state, and the course moves on by
 * eventless transitions. Conditions of those cost an interpreter most, since it tries them in every microstep: so the other
 * regions tell one another by internal events what has changed, and an `and` is nesting, or one event raising the next.
 *
 * It starts in `intake`, and its first external event is `symptom.SYMPTOM`, which begins a job of that symptom; the others
 * are those of {@link scxmlEvent}. {@link scxmlConfiguration} gives the states it is in then.
 *
 * It covers the paths of every symptom (with the paths they cross into), changeovers with their needs and interlocks,
 * leaving a bench state made unsafe before any answer, tests made aside, contradiction and its settling, correction, skip to a result,
 * remedies taken in hand, done or given up, the proof passed and failed, `otherwise`, and closing.
 *
 * It does not cover what needs a data model: readings (events carry the result they were sorted into, so neither ratios
 * to an earlier reading that is zero nor what correcting it does to them), remedies of findings that name no proof tests
 * and of causes outside the tree (their proof hangs on the evidence), a proof that fails because an interlock on its way
 * does not open, an unsafe bench state that no changeover leads out of, the order in which changeovers are proposed, a skip
 * that goes on as no result (where the path is met again hangs on the authors' weights: such a job is off the export from
 * there on), and `take-back` (play the events again without the last).
 */
export function toScxml(chart: Chart | Tree): string {
  const tree = 'machine' in chart ? chart.tree : chart;
  const reach = reachOf(tree);
  const job = parallel('job', closings(), [
    complaintRegion(tree),
    ...benchRegions(tree),
    ...Object.entries(tree.tests).map(([id, test]) => answerRegion(tree, reach, id, test)),
    ...remedyRegions(tree, reach),
    courseRegion(tree, reach),
  ]);
  const finals = OUTCOMES.map((outcome) => element('final', { id: `closed.${outcome}` }));
  const document = element(
    'scxml',
    {
      xmlns: 'http://www.w3.org/2005/07/scxml',
      version: '1.0',
      datamodel: 'null',
      initial: 'intake',
    },
    [intake(tree), job, ...finals],
  );
  return `<?xml version="1.0" encoding="UTF-8"?>\n${written(document)}`;
}

function closings(): readonly Way[] {
  return OUTCOMES.map((outcome) => ({
    event: `close.${outcome}`,
    ...(outcome === 'fixed' ? { in: 'mended' } : {}),
    target: `closed.${outcome}`,
  }));
}
