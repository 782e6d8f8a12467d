import type { JobSummary } from '../../../main/contract/index.ts';
import type { Asked, Session, Trouble } from '../../shell/index.ts';

const PAGE = 50;
/** Typing settles for this long before the records are searched. */
const SETTLE_MILLISECONDS = 180;

type Status = 'open' | 'closed';
type Page = { readonly jobs: readonly JobSummary[]; readonly next: string | null };

const EMPTY: Page = { jobs: [], next: null };

/** The shop's jobs, open and closed, narrowed by a search; pages of closed ones are added as they are asked for. */
export class JobListing {
  readonly #session: Session;
  #typing: ReturnType<typeof setTimeout> | undefined;
  #asked = 0;

  search = $state('');
  open = $state.raw<Page>(EMPTY);
  closed = $state.raw<Page>(EMPTY);
  trouble = $state.raw<Trouble | null>(null);
  read = $state(false);
  /** The search that the jobs shown are of. */
  found = $state('');

  constructor(session: Session) {
    this.#session = session;
  }

  /** Searches when typing settles. */
  type(search: string): void {
    this.search = search;
    clearTimeout(this.#typing);
    this.#typing = setTimeout(() => void this.load(), SETTLE_MILLISECONDS);
  }

  /** Reads the first page of both. An answer that a later question has overtaken is let go. */
  async load(): Promise<void> {
    const asked = (this.#asked += 1);
    const search = this.search.trim();
    const [open, closed] = await Promise.all([
      this.#page('open', search, null),
      this.#page('closed', search, null),
    ]);
    if (asked !== this.#asked) return;
    this.trouble = open.ok ? (closed.ok ? null : closed.trouble) : open.trouble;
    if (!open.ok || !closed.ok) return;
    this.open = open.value;
    this.closed = closed.value;
    this.found = search;
    this.read = true;
  }

  /** Adds the next page of open or closed jobs. */
  async more(status: Status): Promise<void> {
    const asked = this.#asked;
    const held = this[status];
    const page = await this.#page(status, this.found, held.next);
    if (asked !== this.#asked) return;
    this.trouble = page.ok ? null : page.trouble;
    if (page.ok) this[status] = { jobs: [...held.jobs, ...page.value.jobs], next: page.value.next };
  }

  /** Lets go of a search that has not been asked yet. */
  stop(): void {
    clearTimeout(this.#typing);
    this.#asked += 1;
  }

  #page(status: Status, search: string, before: string | null): Promise<Asked<Page>> {
    return this.#session.ask((client, signal) =>
      client.jobs.list({ status, search, before, limit: PAGE }, { signal }),
    );
  }
}
