import type { DraftEntry } from '../../../trees/edit/index.ts';
import type { Session, Trouble } from '../../shell/index.ts';

/** Entries sent at once: what the contract takes at most. */
const AT_ONCE = 200;

/** Records a draft's entries in the order they were made, one request after another, and says whether all are kept. */
export class DraftKeeper {
  readonly #session: Session;
  readonly #draftId: string;
  #waiting: DraftEntry[] = [];
  #sending = false;
  /** Entries that are recorded. */
  #kept: number;
  /** True while something that was done is not yet recorded. */
  pending = $state(false);
  trouble = $state.raw<Trouble | null>(null);

  constructor(session: Session, draftId: string, kept: number) {
    this.#session = session;
    this.#draftId = draftId;
    this.#kept = kept;
  }

  /** Entries recorded so far. */
  get kept(): number {
    return this.#kept;
  }

  /** Records one more entry, after those before it. */
  keep(entry: DraftEntry): void {
    this.#waiting.push(entry);
    this.pending = true;
    if (this.trouble === null) void this.send();
  }

  /** Sends what waits; also what to do again after trouble. Resolves once nothing waits any more, or something went wrong. */
  async send(): Promise<void> {
    if (this.#sending) return;
    this.#sending = true;
    this.trouble = null;
    while (this.#waiting.length > 0 && this.trouble === null) await this.#sendSome();
    this.#sending = false;
    this.pending = this.#waiting.length > 0;
  }

  /** Resolves to true once all that was done is recorded; to false where that does not come to pass. */
  async settled(): Promise<boolean> {
    while (this.#sending) await new Promise((done) => setTimeout(done, 10));
    if (this.#waiting.length > 0) await this.send();
    return this.#waiting.length === 0;
  }

  async #sendSome(): Promise<void> {
    const technicianId = this.#session.technician?.id;
    if (technicianId === undefined) {
      this.trouble = NOBODY_AT_WORK;
      return;
    }
    const entries = this.#waiting.slice(0, AT_ONCE);
    const question = { draftId: this.#draftId, seq: this.#kept, technicianId, entries };
    const kept = await this.#session.ask((client, signal) => client.drafts.append(question, { signal }));
    if (!kept.ok) {
      this.trouble = kept.trouble;
      return;
    }
    this.#kept = kept.value.entries;
    this.#waiting = this.#waiting.slice(entries.length);
  }
}

const NOBODY_AT_WORK: Trouble = {
  code: 'NOBODY_AT_WORK',
  message: 'It is not said who is at work.',
  where: 'at the top of the window',
  help: 'Choose your name there, then try again: what you have changed is still here.',
};
