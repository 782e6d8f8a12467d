import type { Records } from '../../main/records/index.ts';
import { drawReading } from '../../main/services/demo/draw-reading.ts';
import type { Random } from '../../main/services/demo/random.ts';
import { append, startJob } from '../../main/services/index.ts';
import { createWalks, jobStateOf } from '../../main/services/walks.ts';
import { beliefOf, compileFaultModel, evidenceOf } from '../../trees/belief/index.ts';
import { OUTCOMES, referenceValue, standing, type JobEvent, type Walk } from '../../trees/chart/index.ts';
import { UNLISTED, type Tree } from '../../trees/document/index.ts';
import { bytesOf } from './temp-shop.ts';

interface WorkedJob {
  readonly jobId: string;
  readonly tree: Tree;
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
    const symptom = random.choose(Object.keys(tree.symptoms));
    const started = startJob(
      records,
      {
        revisionId,
        symptom,
        board: random.choose(['', ...tree.unit.boards]),
        serial: random.choose(['u-1', 'U-1', 'U-2', 'n/a']),
        reference: '',
        technicianId: random.choose(technicians),
      },
      false,
      moment(),
    );
    if (!started.ok) throw new Error(started.trouble.message);
    jobs.push({ jobId: started.value.jobId, tree, events: 0 });
  }

  function work(job: WorkedJob): void {
    const at = walks.at(records, job.jobId, job.events);
    if (!at.ok) throw new Error(at.code);
    const event = eventFor(at.live.walk);
    if (event === null) return;
    if (event.kind === 'start-remedy' && !shownTo.has(job.jobId))
      shownTo.set(job.jobId, likely(job.tree, at.live.walk));
    const request = { jobId: job.jobId, seq: job.events, technicianId: random.choose(technicians), event };
    const appended = append(records, walks, request, moment());
    if (!appended.ok) throw new Error(appended.trouble.message);
    job.events += 1;
  }

  function eventFor(walk: Walk): JobEvent | null {
    const next = nextEvent(walk, random);
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

/** Does what the chart asks for, whatever it comes to; null where the job is closed. */
function nextEvent(walk: Walk, random: Random): JobEvent | null {
  const { act } = standing(walk);
  switch (act.kind) {
    case 'change':
      return { kind: 'change', axis: act.axis, to: act.change.to };
    case 'test':
      return answerOf(walk, act.test, act.purpose.kind === 'proof', random);
    case 'finding':
      return random.happens(0.1)
        ? { kind: 'close', outcome: 'declined' }
        : { kind: 'start-remedy', finding: act.finding };
    case 'remedy':
      return random.happens(0.1) ? { kind: 'give-up-remedy', reason: 'No part' } : { kind: 'remedy-done' };
    case 'contradiction':
      return { kind: 'settle', result: jobStateOf(walk).contradiction?.result ?? null };
    case 'adrift':
      return random.happens(0.5)
        ? {
            kind: 'start-remedy',
            finding: UNLISTED,
            what: `Crack ${String(jobStateOf(walk).remedies.length)}`,
          }
        : closing(random);
    case 'barred':
      return closing(random);
    case 'mended':
      return { kind: 'close', outcome: 'fixed' };
    case 'closed':
      return null;
  }
}

/** Any of a test's results; its first one, which a sound unit gives, mostly where a remedy is being proved. */
function answerOf(walk: Walk, id: string, isProof: boolean, random: Random): JobEvent {
  const { tree } = walk.chart;
  const test = tree.tests[id];
  const results = Object.keys(test?.results ?? {});
  const result = isProof && random.happens(0.7) ? (results[0] ?? '') : random.choose(results);
  if (test?.reading === undefined) return { kind: 'answer', test: id, result };
  const against = referenceValue(tree, jobStateOf(walk), id);
  const reading = drawReading(test, result, typeof against === 'number' ? against : undefined, random);
  return reading === null ? closing(random) : { kind: 'answer', test: id, result, reading };
}

function closing(random: Random): JobEvent {
  return { kind: 'close', outcome: random.choose(OUTCOMES.filter((outcome) => outcome !== 'fixed')) };
}
