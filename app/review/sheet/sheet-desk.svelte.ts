import type { ReviewJob, ReviewPage } from '../../../main/contract/index.ts';
import type { ReviewFilter } from '../../../trees/review/index.ts';
import type { Session, Trouble } from '../../shell/index.ts';
import { REVIEW_PATIENCE } from '../patience.ts';
import { spanOf, yearUpTo } from './months.ts';

/** What a month's sheet says. */
export interface MonthRecord {
  readonly month: string;
  readonly filter: ReviewFilter;
  readonly page: ReviewPage;
  /** The month and the year before it. */
  readonly year: ReviewPage;
  /** The first of those jobs closed in the month whose unit was back within the window, and how many there are in all. */
  readonly back: { readonly jobs: readonly ReviewJob[]; readonly total: number };
}

const MOST_LISTED = 60;

/** Asks for what a month's sheet says; the newest question's answer wins. */
export class SheetDesk {
  readonly #session: Session;
  #asked = 0;

  shown = $state.raw<MonthRecord | null>(null);
  trouble = $state.raw<Trouble | null>(null);

  constructor(session: Session) {
    this.#session = session;
  }

  async ask(month: string, narrowed: ReviewFilter): Promise<void> {
    this.#asked += 1;
    const asked = this.#asked;
    this.trouble = null;
    const filter = { ...narrowed, ...spanOf(month) };
    const back = { filter, slice: { kind: 'back' as const, within: filter.window }, limit: MOST_LISTED };
    const given = await this.#session.ask(async (client, signal) => {
      const [page, year, jobs] = await Promise.all([
        client.review.figures(filter, { signal }),
        client.review.figures({ ...narrowed, ...yearUpTo(month) }, { signal }),
        client.review.jobs(back, { signal }),
      ]);
      return { month, filter, page, year, back: jobs };
    }, REVIEW_PATIENCE);
    if (asked !== this.#asked) return;
    if (given.ok) this.shown = given.value;
    else this.trouble = given.trouble;
  }

  /** Lets go of what has not been answered yet. */
  stop(): void {
    this.#asked += 1;
  }
}
