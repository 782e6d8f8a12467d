import {
  beliefOf,
  compileFaultModel,
  evidenceOf,
  NO_EVIDENCE,
  type FaultModel,
  type History,
} from '../../../trees/belief/index.ts';
import {
  advance,
  replay,
  standing,
  type JobEvent,
  type JobEventKind,
  type Refusal,
  type Walk,
} from '../../../trees/chart/index.ts';
import type { Job } from '../../../main/contract/index.ts';
import type { Trouble } from '../../shell/index.ts';
import { isBackOnPath } from './back-on-path.ts';
import type { JobKeeper } from './job-keeper.ts';
import { trailOf } from './trail.ts';
import type { Shelf, ShelvedTree } from './tree-shelf.ts';

/** After this long without an answer the screen says that it is still recording. */
const QUIET_MILLISECONDS = 150;

/** An event that was not recorded: kept, so that it can be sent again. */
export interface Unsent {
  readonly event: JobEvent;
  readonly trouble: Trouble;
}

/**
 * One job as a pane shows it: its events, the walk they make, and the one event on its way to the records. Nothing is
 * shown as done before the records have it. What the job *is* follows from its events alone.
 */
export class OpenJob {
  readonly id: string;
  readonly #keeper: JobKeeper;
  readonly #shelf: Shelf;

  job = $state.raw<Job | null>(null);
  shelved = $state.raw<ShelvedTree | null>(null);
  /** What the shop had seen of this tree's units when the job was read. */
  history = $state.raw<History | null>(null);
  walk = $state.raw<Walk | null>(null);
  failure = $state.raw<Trouble | null>(null);
  sending = $state.raw<JobEvent | null>(null);
  slow = $state(false);
  refusal = $state.raw<Refusal | null>(null);
  unsent = $state.raw<Unsent | null>(null);
  /** Something that happened beside the technician's own acts, in a sentence. */
  news = $state('');
  #model = $state.raw<FaultModel | null>(null);

  readonly standing = $derived(this.walk === null ? null : standing(this.walk));
  readonly trail = $derived(trailOf(this.job?.events ?? []));
  readonly evidence = $derived(
    this.shelved === null || this.standing === null
      ? NO_EVIDENCE
      : evidenceOf(this.shelved.tree, this.standing.job),
  );
  readonly belief = $derived(
    this.#model === null || this.standing === null
      ? null
      : beliefOf(this.#model, this.standing.job.symptom, this.evidence),
  );

  constructor(id: string, keeper: JobKeeper, shelf: Shelf) {
    this.id = id;
    this.#keeper = keeper;
    this.#shelf = shelf;
  }

  get model(): FaultModel | null {
    return this.#model;
  }

  get shelf(): Shelf {
    return this.#shelf;
  }

  /** False where the job is only tried out. */
  get isRecorded(): boolean {
    return this.#keeper.isRecorded;
  }

  get busy(): boolean {
    return this.sending !== null;
  }

  /**
   * Whether the chart takes this kind of event now. While an event is on its way nothing else is sent ({@link act}); the
   * screen shows that only once it takes long, so that nothing flickers.
   */
  allows(kind: JobEventKind): boolean {
    return !this.slow && this.standing?.allows.has(kind) === true;
  }

  /**
   * Reads the job, its tree and the shop's history (again), and replays it. What was read is let go where an event was
   * recorded meanwhile, as the job here is then the newer one.
   */
  async read(): Promise<void> {
    const before = this.job;
    this.failure = null;
    const job = await this.#keeper.get(this.id);
    if (!job.ok) return this.#fail(job.trouble);
    const shelved = await this.#shelf.tree(job.value.job.revisionId);
    if (!shelved.ok) return this.#fail(shelved.trouble);
    const history = await this.#shelf.history(shelved.value.tree);
    if (!history.ok) return this.#fail(history.trouble);
    const events = job.value.events.map(({ event }) => event);
    const replayed = replay(shelved.value.chart, job.value.job.symptom, events);
    if (!replayed.ok) return this.#fail(unreplayable(this.id, replayed.at, replayed.refusal));
    if (this.busy || this.job !== before) return;
    this.job = job.value;
    this.shelved = shelved.value;
    this.history = history.value;
    this.#model = compileFaultModel(shelved.value.tree, history.value);
    this.walk = replayed.walk;
  }

  /** Does one act: asks the chart, then the records; true when it is recorded. */
  async act(event: JobEvent): Promise<boolean> {
    if (this.busy || this.walk === null || this.job === null) return false;
    this.news = '';
    this.unsent = null;
    this.refusal = null;
    const { technicianId } = this.#keeper;
    if (technicianId === null) return this.#refuse(NOBODY);
    const advanced = advance(this.walk, event);
    if (!advanced.ok) return this.#refuse(advanced.refusal);
    return this.#send(event, advanced.walk, technicianId);
  }

  /** Sends the event that was not recorded once more. */
  async again(): Promise<boolean> {
    return this.unsent === null ? false : this.act(this.unsent.event);
  }

  /** Does again what was taken back last. */
  async redo(): Promise<boolean> {
    const [event] = this.trail.again;
    return event === undefined ? false : this.act(event);
  }

  async #send(event: JobEvent, next: Walk, technicianId: string): Promise<boolean> {
    const { job, walk } = this;
    if (job === null || walk === null) return false;
    this.sending = event;
    const timer = setTimeout(() => (this.slow = true), QUIET_MILLISECONDS);
    const seq = job.events.length;
    const recorded = await this.#keeper.append({ jobId: this.id, seq, technicianId, event });
    clearTimeout(timer);
    this.slow = false;
    this.sending = null;
    if (!recorded.ok) return this.#notRecorded(event, recorded.trouble);
    this.job = { ...job, events: [...job.events, recorded.value] };
    this.walk = next;
    if (isBackOnPath(walk, event, next)) this.news = 'Back on the path.';
    return true;
  }

  async #notRecorded(event: JobEvent, trouble: Trouble): Promise<boolean> {
    if (trouble.code === 'STALE_SEQUENCE') {
      await this.read();
      this.news =
        'This job has gone on somewhere else since you opened it. It is read again; see where it stands now.';
      return false;
    }
    this.unsent = { event, trouble };
    return false;
  }

  #refuse(refusal: Refusal): false {
    this.refusal = refusal;
    return false;
  }

  #fail(trouble: Trouble): void {
    this.failure = trouble;
  }
}

const NOBODY: Refusal = {
  code: 'nobody-at-work',
  message: 'Nobody is at work on this bench.',
  help: 'Choose who is at work at the top of the window; every answer is recorded with a name.',
};

function unreplayable(jobId: string, at: number, refusal: Refusal): Trouble {
  return {
    code: 'JOB_UNREADABLE',
    message: `This job’s events do not fit its tree: ${refusal.message}`,
    where: `job ${jobId}, event ${String(at + 1)}`,
    help: 'Nothing is lost; the job is kept as it is. Tell whoever looks after the trees.',
  };
}
