import type { ReviewPage } from '../../../main/contract/index.ts';
import type { ReviewFilter } from '../../../trees/review/index.ts';
import { Session, type Client } from '../../../app/shell/session.svelte.ts';

/** A question for figures, to be answered when a test says so. */
export interface Question {
  readonly filter: ReviewFilter;
  readonly signal: AbortSignal;
  readonly answer: (page: ReviewPage) => void;
  readonly fail: (failure: unknown) => void;
}

/** A window's session whose main process answers for figures only when told to. */
export function reviewSession(): { readonly session: Session; readonly questions: Question[] } {
  const questions: Question[] = [];
  const review = {
    figures: (filter: ReviewFilter, { signal }: { signal: AbortSignal }) =>
      new Promise<ReviewPage>((answer, fail) => {
        questions.push({ filter, signal, answer, fail });
      }),
  };
  // Only what these tests ask for is there; anything else fails as not a function.
  return { session: new Session(async () => ({ review }) as unknown as Client), questions };
}
