import type { PastReading } from '../../../../main/contract/index.ts';
import type { Trouble } from '../../../shell/index.ts';
import type { EditorDesk } from '../../desk/editor-desk.svelte.ts';

/** What the shop’s closed jobs have read at a test; null until it is known. A tree that is not published has none. */
export class PastReadings {
  readonly #desk: EditorDesk;
  readonly #test: string;
  readings = $state.raw<readonly PastReading[] | null>(null);
  more = $state(false);
  trouble = $state.raw<Trouble | null>(null);

  constructor(desk: EditorDesk, test: string) {
    this.#desk = desk;
    this.#test = test;
  }

  async read(): Promise<void> {
    if (this.#desk.base === null) {
      this.readings = [];
      return;
    }
    this.trouble = null;
    const question = { treeId: this.#desk.treeId, test: this.#test };
    const asked = await this.#desk.session.ask((client, signal) =>
      client.history.readings(question, { signal }),
    );
    if (!asked.ok) {
      this.trouble = asked.trouble;
      return;
    }
    // Those read after a remedy that did not mend are of the same finding still, and publishing sorts them too.
    this.readings = asked.value.readings;
    this.more = asked.value.more;
  }
}
