import type { TreeSummary } from '../../../main/contract/index.ts';
import type { Asked, Session, Trouble } from '../../shell/index.ts';
import { keyring } from './keyring.svelte.ts';

/** What is asked of the main process, with the note and the key that publishing takes where it is locked. */
export type AskToPublish = (note: string, key: string | undefined) => Promise<Asked<TreeSummary>>;

export type PublishOutcome =
  { readonly kind: 'published'; readonly summary: TreeSummary } | { readonly kind: 'stale' | 'refused' };

/** A note to publish with and, where publishing is locked, the passphrase; kept as typed until it is published. */
export class PublishForm {
  readonly #session: Session;
  readonly #publish: AskToPublish;
  note = $state('');
  passphrase = $state('');
  /** The passphrase has to be entered. */
  locked = $state(false);
  busy = $state(false);
  /** What is wrong with the passphrase as typed. */
  wrong = $state<string | undefined>(undefined);
  trouble = $state.raw<Trouble | null>(null);
  readonly ready: boolean = $derived(
    !this.busy && this.note.trim() !== '' && (!this.locked || this.passphrase !== ''),
  );

  constructor(session: Session, publish: AskToPublish) {
    this.#session = session;
    this.#publish = publish;
  }

  /** Asks whether the passphrase is needed, so that it can be entered with the note. */
  async open(): Promise<void> {
    const state = await this.#session.ask((client, signal) => client.lock.state(undefined, { signal }));
    if (state.ok && state.value.set && keyring.key === undefined) this.locked = true;
  }

  /** Publishes, entering the passphrase first where it is asked for. What was typed stays where it is refused. */
  async submit(): Promise<PublishOutcome> {
    if (!this.ready) return { kind: 'refused' };
    this.busy = true;
    this.trouble = null;
    this.wrong = undefined;
    const outcome = this.locked && !(await this.#unlocked()) ? refused() : await this.#published();
    this.busy = false;
    return outcome;
  }

  async #unlocked(): Promise<boolean> {
    const { passphrase } = this;
    const given = await this.#session.ask((client, signal) => client.lock.unlock({ passphrase }, { signal }));
    if (given.ok) {
      keyring.key = given.value.key;
      this.locked = false;
      this.passphrase = '';
      return true;
    }
    const { code, message, help } = given.trouble;
    if (code === 'WRONG_PASSPHRASE' || code === 'TOO_MANY_TRIES') this.wrong = `${message} ${help}`;
    else if (code === 'NOT_FOUND')
      this.locked = false; // it was taken away in the meantime
    else this.trouble = given.trouble;
    return code === 'NOT_FOUND';
  }

  async #published(): Promise<PublishOutcome> {
    const published = await this.#publish(this.note, keyring.key);
    if (published.ok) return { kind: 'published', summary: published.value };
    const { code } = published.trouble;
    if (code === 'STALE_REVISION') return { kind: 'stale' };
    if (code === 'LOCKED') {
      keyring.key = undefined;
      this.locked = true;
      this.wrong = 'The passphrase has to be entered (again).';
    } else this.trouble = published.trouble;
    return refused();
  }
}

function refused(): PublishOutcome {
  return { kind: 'refused' };
}
