import type { Session } from '../session.svelte.ts';

/** The passphrase of publishing: whether there is one, and setting, changing and taking it away. */
export class LockDesk {
  readonly #session: Session;
  /** Null until it is known. */
  set = $state<boolean | null>(null);
  busy = $state(false);
  wrong = $state<string | undefined>(undefined);
  /** What was done last, in words; empty where nothing was. */
  done = $state('');

  constructor(session: Session) {
    this.#session = session;
  }

  async read(): Promise<void> {
    const state = await this.#session.ask((client, signal) => client.lock.state(undefined, { signal }));
    if (state.ok) this.set = state.value.set;
    else this.wrong = `${state.trouble.message} ${state.trouble.help}`;
  }

  /** Sets another passphrase, or takes it away (null); true where that was done. */
  async change(passphrase: string | null, former: string): Promise<boolean> {
    if (this.busy) return false;
    this.busy = true;
    this.done = '';
    const wasSet = this.set === true;
    const changed = await this.#session.ask((client, signal) =>
      client.lock.set({ passphrase, ...(wasSet && { former }) }, { signal }),
    );
    this.busy = false;
    this.wrong = changed.ok ? undefined : `${changed.trouble.message} ${changed.trouble.help}`;
    if (!changed.ok) return false;
    this.set = changed.value.set;
    this.done = passphrase === null ? 'Taken away.' : wasSet ? 'Changed.' : 'Set.';
    return true;
  }
}
