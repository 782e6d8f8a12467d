import type { Client, Session } from '../session.svelte.ts';

/** Makes one change to the shop at a time, and reads the shop again when it is done. */
export class ShopDesk {
  readonly #session: Session;
  busy = $state(false);
  wrong = $state<string | undefined>(undefined);

  constructor(session: Session) {
    this.#session = session;
  }

  /** What the change gave, or null where it failed; `wrong` then says what to do. */
  async change<T>(make: (client: Client) => Promise<T>): Promise<T | null> {
    this.busy = true;
    const made = await this.#session.ask((client) => make(client));
    this.wrong = made.ok ? undefined : `${made.trouble.message} ${made.trouble.help}`;
    if (made.ok) await this.#session.open();
    this.busy = false;
    return made.ok ? made.value : null;
  }
}
