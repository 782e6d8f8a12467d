import type { ReviewJob, ReviewSlice } from '../../../main/contract/index.ts';
import type { ReviewFilter } from '../../../trees/review/index.ts';
import type { Session, Trouble } from '../../shell/index.ts';
import { REVIEW_PATIENCE } from '../patience.ts';

const PAGE = 50;

/** The jobs behind a figure, page by page. */
export class SliceJobs {
  readonly #session: Session;
  readonly #filter: ReviewFilter;
  readonly #slice: ReviewSlice;
  #next: string | null = null;
  #isOver = false;

  jobs = $state.raw<readonly ReviewJob[]>([]);
  /** How many there are; null until the first page is there. */
  total = $state<number | null>(null);
  hasMore = $state(false);
  busy = $state(false);
  trouble = $state.raw<Trouble | null>(null);

  constructor(session: Session, filter: ReviewFilter, slice: ReviewSlice) {
    this.#session = session;
    this.#filter = filter;
    this.#slice = slice;
  }

  /** Reads the next page, the first one at first. */
  async more(): Promise<void> {
    if (this.busy) return;
    this.busy = true;
    const asked = { filter: this.#filter, slice: this.#slice, before: this.#next, limit: PAGE };
    const page = await this.#session.ask(
      (client, signal) => client.review.jobs(asked, { signal }),
      REVIEW_PATIENCE,
    );
    if (this.#isOver) return;
    this.busy = false;
    this.trouble = page.ok ? null : page.trouble;
    if (!page.ok) return;
    this.jobs = [...this.jobs, ...page.value.jobs];
    this.total = page.value.total;
    this.#next = page.value.next;
    this.hasMore = page.value.next !== null;
  }

  /** Lets go of what has not been answered yet. */
  stop(): void {
    this.#isOver = true;
  }
}
