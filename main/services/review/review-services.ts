import { implement, ORPCError } from '@orpc/server';
import { contract } from '../../contract/index.ts';
import { give } from '../answer.ts';
import type { Desk } from '../desk.ts';

/** The review over a desk: every question is passed on to the reviewer's thread. */
export function reviewServices({ reviewer, clock }: Desk) {
  const { review } = implement(contract);
  return {
    figures: review.figures.handler(async ({ input: filter, errors, signal }) => {
      const given = await reviewer.ask({ kind: 'figures', filter, now: clock() }, signal);
      return give(errors, given ?? abandoned());
    }),
    jobs: review.jobs.handler(async ({ input, errors, signal }) => {
      const given = await reviewer.ask({ kind: 'jobs', ...input, now: clock() }, signal);
      return give(errors, given ?? abandoned());
    }),
  };
}

/** Nobody hears it. */
function abandoned(): never {
  throw new ORPCError('CLIENT_CLOSED_REQUEST');
}
