import type { DraftEntry } from '../../../trees/edit/index.ts';
import type { Session, Trouble } from '../../shell/index.ts';

/** Entries sent at once: what the contract takes at most. */
const AT_ONCE = 200;

/** After trouble, what waits is sent again by itself after this long. */
const AGAIN_MILLISECONDS = 5000;

/** An entry that waits to be recorded, and who was at work when it was made. */
export interface Waiting {
  readonly entry: DraftEntry;
  readonly technicianId: string | undefined;
}

/**
 * Records a draft's entries in the order they were made, one request after another, and says whether all are kept. After trouble it
 * goes on trying, on whatever screen one is.
 */
export class DraftKeeper {
  readonly #session: Session;
  readonly #draftId: string;
  #waiting: readonly Waiting[] = $state.raw([]);
  /** Entries that were sent last and not answered for: the same are sent again, as they may be recorded already. */
  #unanswered = 0;
  /** As many entries are sent at once as have been taken lately. */
  #atOnce = AT_ONCE;
  #sending = false;
  #again: ReturnType<typeof setTimeout> | undefined;
  #isGivenUp = false;
  /** Entries that are recorded. */
  #kept: number;
  /** True while something that was done is not yet recorded. */
  pending = $state(false);
  trouble = $state.raw<Trouble | null>(null);

  /** What waits can never be recorded: the draft has gone on, or ended, elsewhere, and has to be read again. */
  readonly isOutrun: boolean = $derived(
    this.trouble !== null &&
      (OUTRUN.includes(this.trouble.code) ||
        (this.trouble.code === 'NOT_FOUND' && this.trouble.where === '/draftId')),
  );

  /** The draft has ended elsewhere: whatever is done in it can be recorded nowhere. */
  readonly isEnded: boolean = $derived(this.isOutrun && this.trouble?.code === 'NOT_FOUND');

  /** How many edits wait, as they are undone: what joins an edit counts with it. */
  readonly edits: number = $derived(
    Math.max(
      Math.min(1, this.#waiting.length),
      this.#waiting.filter(({ entry }) => entry.kind !== 'edit' || entry.joins !== true).length,
    ),
  );

  constructor(session: Session, draftId: string, kept: number) {
    this.#session = session;
    this.#draftId = draftId;
    this.#kept = kept;
  }

  /** Entries recorded so far. */
  get kept(): number {
    return this.#kept;
  }

  /**
   * What waits to be recorded after the entries of the draft as it is recorded now: those that were not answered for and are there
   * already, before what came from elsewhere, wait no more.
   */
  waitingAfter(recorded: readonly DraftEntry[]): {
    readonly from: number;
    readonly waiting: readonly Waiting[];
  } {
    const unanswered = this.#waiting.slice(0, this.#unanswered);
    const areThere =
      unanswered.length > 0 &&
      unanswered.every(({ entry }, place) => isEntry(recorded[this.#kept + place], entry));
    const there = areThere ? unanswered.length : 0;
    return { from: this.#kept + there, waiting: this.#waiting.slice(there) };
  }

  /** Records one more entry, after those before it; by who is at work, where it is not said who made it. */
  keep(entry: DraftEntry, technicianId = this.#session.technician?.id): void {
    this.#waiting = [...this.#waiting, { entry, technicianId }];
    this.pending = true;
    if (this.trouble === null) void this.send();
  }

  /** Sends what waits; also what to do at once after trouble. Resolves once nothing waits any more, or something went wrong. */
  async send(): Promise<void> {
    if (this.#sending) return;
    this.trouble = null;
    await this.#sendAll();
  }

  /** Tries no more: what waits is lost. */
  giveUp(): void {
    this.#isGivenUp = true;
    clearTimeout(this.#again);
    this.#waiting = [];
    this.pending = false;
    this.trouble = null;
  }

  /** Resolves to true once all that was done is recorded; to false where that does not come to pass. */
  async settled(): Promise<boolean> {
    while (this.#sending) await new Promise((done) => setTimeout(done, 10));
    if (this.#waiting.length > 0) await this.send();
    return this.#waiting.length === 0;
  }

  /** Trouble that is there stays told until something has come of it: it is not told anew each time that it is still there. */
  async #sendAll(): Promise<void> {
    if (this.#sending || this.#isGivenUp) return;
    clearTimeout(this.#again);
    this.#sending = true;
    let trouble: Trouble | null = null;
    while (this.#waiting.length > 0 && trouble === null) trouble = await this.#sendSome();
    this.#sending = false;
    if (this.#isGivenUp) return;
    this.pending = this.#waiting.length > 0;
    if (trouble?.code !== this.trouble?.code || trouble?.message !== this.trouble?.message)
      this.trouble = trouble;
    if (trouble !== null && !this.isOutrun)
      this.#again = setTimeout(() => void this.#sendAll(), AGAIN_MILLISECONDS);
  }

  async #sendSome(): Promise<Trouble | null> {
    const technicianId = this.#whoMade(this.#waiting[0]);
    if (technicianId === undefined) return NOBODY_AT_WORK;
    const entries = this.#next(technicianId);
    const question = { draftId: this.#draftId, seq: this.#kept, technicianId, entries };
    this.#unanswered = entries.length;
    const kept = await this.#session.ask((client, signal) => client.drafts.append(question, { signal }));
    if (!kept.ok && entries.length > 1 && TOO_MUCH.includes(kept.trouble.code)) {
      this.#unanswered = 0;
      this.#atOnce = Math.ceil(entries.length / 2);
      return null;
    }
    if (!kept.ok) return kept.trouble;
    this.#unanswered = 0;
    this.#atOnce = Math.min(AT_ONCE, 2 * this.#atOnce);
    this.#kept = kept.value.entries;
    this.#waiting = this.#waiting.slice(entries.length);
    return null;
  }

  /** The entries to be sent next: those not answered for, else as many as go at once and are by the same technician. */
  #next(technicianId: string): DraftEntry[] {
    const others = this.#waiting.findIndex((one) => this.#whoMade(one) !== technicianId);
    const most = Math.min(this.#atOnce, others < 0 ? this.#waiting.length : others);
    return this.#waiting.slice(0, this.#unanswered || most).map(({ entry }) => entry);
  }

  /** Who was at work when an entry was made; whoever is now, where that was nobody or somebody who works here no more. */
  #whoMade(waiting: Waiting | undefined): string | undefined {
    const { technicians, technician } = this.#session;
    const then = technicians.find(({ id }) => id === waiting?.technicianId);
    return (then ?? technician)?.id;
  }
}

function isEntry(recorded: DraftEntry | undefined, entry: DraftEntry): boolean {
  return JSON.stringify(recorded) === JSON.stringify(entry);
}

/** Several entries may be too much for one request where each of them is not; nothing of them is recorded then. */
const TOO_MUCH: readonly string[] = ['TOO_MUCH_AT_ONCE', 'BAD_REQUEST', 'PAYLOAD_TOO_LARGE'];

const OUTRUN: readonly string[] = ['STALE_DRAFT', 'EVENT_REFUSED'];

const NOBODY_AT_WORK: Trouble = {
  code: 'NOBODY_AT_WORK',
  message: 'It is not said who is at work.',
  where: 'at the top of the window',
  help: 'Choose your name, then try again: what you have changed is still here.',
};
