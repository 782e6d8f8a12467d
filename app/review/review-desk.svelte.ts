import type { ReviewPage } from '../../main/contract/index.ts';
import type { ReviewFilter } from '../../trees/review/index.ts';
import type { Session, Trouble } from '../shell/index.ts';
import { REVIEW_PATIENCE } from './patience.ts';

/** A page of figures and what it was asked for. */
export interface ShownReview {
  readonly filter: ReviewFilter;
  readonly page: ReviewPage;
}

/** What a window last had on the page: who comes back to it from a job finds it as it was, and the browser its place in it. */
const lastShown = new WeakMap<Session, ShownReview>();

/** Asks for the review's figures. The last page stays while a newer one is worked out, and the newest question's answer wins. */
export class ReviewDesk {
  readonly #session: Session;
  #asked = 0;
  #filter: ReviewFilter | null = null;
  #waiting: AbortController | null = null;

  shown = $state.raw<ShownReview | null>(null);
  trouble = $state.raw<Trouble | null>(null);
  /** A question is under way: what is shown is not its answer. */
  busy = $state(false);

  constructor(session: Session) {
    this.#session = session;
    this.shown = lastShown.get(session) ?? null;
  }

  /** Asks for the figures of a filter, where that is another than was asked for last. */
  async follow(filter: ReviewFilter): Promise<boolean> {
    return isSame(filter, this.#filter) ? false : this.ask(filter);
  }

  /** Asks for the figures of a filter. False where it failed, or a later question has overtaken it. */
  async ask(filter: ReviewFilter): Promise<boolean> {
    this.stop();
    this.#filter = filter;
    const asked = this.#asked;
    const waiting = new AbortController();
    this.#waiting = waiting;
    this.busy = true;
    const given = await this.#session.ask(
      (client, signal) =>
        client.review.figures(filter, { signal: AbortSignal.any([signal, waiting.signal]) }),
      REVIEW_PATIENCE,
    );
    if (asked !== this.#asked) return false;
    this.busy = false;
    this.trouble = given.ok ? null : given.trouble;
    if (!given.ok) return false;
    this.shown = { filter, page: given.value };
    lastShown.set(this.#session, this.shown);
    return true;
  }

  /** Lets go of what has not been answered yet: nobody waits for it, and it need not be worked out. */
  stop(): void {
    this.#asked += 1;
    this.#waiting?.abort();
    this.#waiting = null;
    this.busy = false;
  }
}

function isSame(filter: ReviewFilter, other: ReviewFilter | null): boolean {
  return JSON.stringify(filter) === JSON.stringify(other);
}
