import { standing, type JobEvent } from '../../trees/chart/index.ts';
import type { Records } from '../../main/records/index.ts';
import { append, startJob } from '../../main/services/index.ts';
import { nextEvent, type AtBench } from '../../main/services/demo/next-event.ts';
import type { Random } from '../../main/services/demo/random.ts';
import { unitDrawer } from '../../main/services/demo/unit-under-test.ts';
import { createWalks } from '../../main/services/walks.ts';

/**
 * Works a job through on a revision, as the demo does, but taking back a quarter of what it did, closings above all, and
 * leaving it wherever `most` events end it.
 */
export function workRandomJob(
  records: Records,
  revisionId: string,
  random: Random,
  most: number,
  reference = '',
): string {
  const { tree } = records.charts.of(revisionId);
  const walks = createWalks();
  const unit = unitDrawer(tree, random).draw(0);
  const bench: AtBench = { tree, unit, random, care: 1 };
  const technicianId = records.technicians.list()[0]?.id ?? records.technicians.add('Ada')?.id ?? '';
  const ticket = { revisionId, symptom: unit.symptom, board: '', serial: 'U-1', reference, technicianId };
  const started = startJob(records, ticket, false);
  if (!started.ok) throw new Error(started.trouble.message);
  const { jobId } = started.value;
  for (let seq = 0; seq < most; seq += 1) {
    const at = walks.at(records, jobId, seq);
    if (!at.ok) throw new Error(at.code);
    const { walk } = at.live;
    const { act, job } = standing(walk);
    const next = nextEvent(bench, act, job);
    if (next === null && random.happens(0.5)) return jobId;
    const back = walk.trail.length > 0 && (next === null || random.happens(0.25));
    const event: JobEvent | undefined = back ? { kind: 'take-back' } : next?.event;
    if (event === undefined) return jobId;
    const appended = append(records, walks, { jobId, seq, technicianId, event });
    if (!appended.ok) throw new Error(appended.trouble.message);
  }
  return jobId;
}
