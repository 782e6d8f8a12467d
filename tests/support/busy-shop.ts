import type { Records } from '../../main/records/index.ts';
import { nextEvent } from '../../main/services/demo/next-event.ts';
import type { Random } from '../../main/services/demo/random.ts';
import { unitDrawer } from '../../main/services/demo/unit-under-test.ts';
import { append, startJob } from '../../main/services/index.ts';
import { createWalks, jobStateOf } from '../../main/services/walks.ts';
import { beliefOf, compileFaultModel, evidenceOf } from '../../trees/belief/index.ts';
import { standing, type JobEvent, type Walk } from '../../trees/chart/index.ts';
import type { Tree } from '../../trees/document/index.ts';
import { bytesOf } from './temp-shop.ts';

interface WorkedJob {
  readonly jobId: string;
  readonly tree: Tree;
  readonly unit: Parameters<typeof nextEvent>[2];
  events: number;
}

/**
 * A shop where several jobs of few units are worked at once, by two technicians, with much taken back, closings above all, and
 * with revisions published in between. Its clock runs in leaps, and is set back now and then.
 */
export function openBusyShop(records: Records, revisions: readonly Tree[], random: Random) {
  const walks = createWalks();
  const jobs: WorkedJob[] = [];
  const shownTo = new Map<string, readonly (readonly [string, number])[]>();
  const technicians = ['Ada', 'Bo'].map((name) => records.technicians.add(name)?.id ?? '');
  let now = Date.UTC(2026, 0, 5, 9);
  const moment = (): number =>
    (now += Math.floor(random.next() ** 6 * 9e8) - (random.happens(0.05) ? 9e5 : 0));

  function publish(): void {
    const tree = random.choose(revisions);
    records.addRevision({ bytes: bytesOf(tree), tree, source: 'published', note: '', pictures: [] });
  }

  function start(): void {
    const { revisionId } = random.choose(records.trees.list());
    const { tree } = records.charts.of(revisionId);
    const unit = unitDrawer(tree, random).draw();
    const started = startJob(
      records,
      {
        revisionId,
        symptom: unit.symptom,
        board: random.choose(['', ...tree.unit.boards]),
        serial: random.choose(['u-1', 'U-1', 'U-2']),
        reference: '',
        technicianId: random.choose(technicians),
      },
      false,
      moment(),
    );
    if (!started.ok) throw new Error(started.trouble.message);
    jobs.push({ jobId: started.value.jobId, tree, unit, events: 0 });
  }

  function work(job: WorkedJob): void {
    const at = walks.at(records, job.jobId, job.events);
    if (!at.ok) throw new Error(at.code);
    const event = eventFor(job, at.live.walk);
    if (event === null) return;
    if (event.kind === 'start-remedy' && !shownTo.has(job.jobId))
      shownTo.set(job.jobId, likely(job.tree, at.live.walk));
    const request = { jobId: job.jobId, seq: job.events, technicianId: random.choose(technicians), event };
    const appended = append(records, walks, request, moment());
    if (!appended.ok) throw new Error(appended.trouble.message);
    job.events += 1;
  }

  function eventFor(job: WorkedJob, walk: Walk): JobEvent | null {
    const next = nextEvent(job.tree, standing(walk), job.unit, random)?.event ?? null;
    if (walk.trail.length > 0 && random.happens(next === null ? 0.1 : 0.15)) return { kind: 'take-back' };
    return next?.kind === 'start-remedy' && random.happens(0.5) ? { ...next, advised: true } : next;
  }

  /** As the bench has it: from the whole history. */
  function likely(tree: Tree, walk: Walk): readonly (readonly [string, number])[] {
    const job = jobStateOf(walk);
    const model = compileFaultModel(tree, records.historyOf(tree.id));
    const { findings } = beliefOf(model, job.symptom, evidenceOf(tree, job));
    return findings.slice(0, 6).map(({ finding, probability }) => [finding, Math.round(probability * 100)]);
  }

  return {
    jobIds: (): readonly string[] => jobs.map(({ jobId }) => jobId),
    shownTo,
    publish,
    /** Something or other happens. */
    act(): void {
      if (jobs.length === 0 || random.happens(0.06)) start();
      else if (random.happens(0.02)) publish();
      else work(random.happens(0.8) ? (jobs.at(-1) ?? random.choose(jobs)) : random.choose(jobs));
    },
  };
}
