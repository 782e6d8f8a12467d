import type { SymptomExpected } from '../../records/index.ts';
import { trouble, type Answer } from '../answer.ts';
import type { AnyReviewAnswer, ReviewQuestion, ReviewValue } from './question.ts';
import { startThread, type ReviewThread, type ThreadReply } from './start-thread.ts';

/** Has reviews made on a thread of their own, one after another, so that nobody at the bench waits for one. */
export interface Reviewer {
  /** Null where `signal` said before the answer came that nobody waits for it; such a question is not begun. */
  ask<K extends ReviewQuestion['kind']>(
    question: Extract<ReviewQuestion, { readonly kind: K }>,
    signal?: AbortSignal,
  ): Promise<Answer<ReviewValue<K>> | null>;
  /** The records were opened, or a job closed: has the thread work out what every question needs, a while from now. */
  warmSoon(): void;
  /** Ends the thread, so that the database can be moved. Questions wait, that which is broken off among them. */
  pause(): Promise<void>;
  /** Goes on with the questions. */
  resume(): void;
  /** Ends for good. */
  end(): Promise<void>;
}

export interface ReviewerOptions {
  readonly file: string;
  /** Whether the records can be used now; asked as each question's turn comes. */
  readonly ready: () => Answer<null>;
  /** Where what the current revisions expect is recorded; where absent it is worked out anew in each run. */
  readonly expected?: Expected;
  /** Starts the thread; another one only where a test has it die. */
  readonly start?: (file: string) => ReviewThread;
  /** Milliseconds until it warms; others only where a test cannot wait so long. */
  readonly warmAfter?: number;
}

interface Expected {
  readonly isMissing: () => boolean;
  readonly keep: (all: readonly SymptomExpected[]) => void;
}

interface Waiting {
  readonly question: ReviewQuestion;
  readonly settle: (given: AnyReviewAnswer | null) => void;
  readonly signal: AbortSignal | undefined;
}

/** Until the first screen and the check of the database, or the next jobs closed in a row, have had their turn. */
const WARM_AFTER = 3000;

export function openReviewer(options: ReviewerOptions): Reviewer {
  const { file, ready, expected, start = startThread, warmAfter = WARM_AFTER } = options;
  const waiting: Waiting[] = [];
  let state: 'going' | 'paused' | 'ended' = 'going';
  let thread: ReviewThread | null = null;
  let beside: ReviewThread | null = null;
  let isAsking = false;
  let warming: NodeJS.Timeout | undefined;

  const goOn = async (): Promise<void> => {
    if (isAsking) return;
    isAsking = true;
    for (let next = nextOf(); next !== undefined; next = nextOf()) await settleOne(next);
    isAsking = false;
  };
  const nextOf = (): Waiting | undefined => (state === 'paused' ? undefined : waiting.shift());
  const settleOne = async (one: Waiting): Promise<void> => {
    if (one.signal?.aborted === true) return one.settle(null);
    if (state === 'ended') return one.settle(closing(file));
    const usable = ready();
    if (!usable.ok) return one.settle(usable);
    if (thread?.isAlive() !== true) thread = start(file);
    const reply = await thread.ask(one.question);
    if (reply.kind === 'stopped') waiting.unshift(one);
    else one.settle(answerIn(reply, file));
  };
  const stopThread = async (): Promise<void> => {
    clearTimeout(warming);
    const running = [thread, beside];
    [thread, beside] = [null, null];
    await Promise.all(running.map((one) => one?.stop()));
  };
  /** On a thread that ends with it: what a tree's evaluation throws away goes with the thread. */
  const expect = async (): Promise<void> => {
    if (state !== 'going' || beside !== null || expected?.isMissing() !== true) return;
    const working = start(file);
    beside = working;
    const reply = await working.ask({ kind: 'expect' });
    if (reply.kind === 'answered' && reply.answer.ok)
      expected.keep(reply.answer.value as ReviewValue<'expect'>); // as it is answered with
    await working.stop();
    if (beside === working) beside = null;
  };

  const ask = (question: ReviewQuestion, signal?: AbortSignal): Promise<AnyReviewAnswer | null> =>
    new Promise((resolve) => {
      const abandon = (): void => resolve(null);
      const settle = (given: AnyReviewAnswer | null): void => {
        signal?.removeEventListener('abort', abandon);
        resolve(given);
      };
      signal?.addEventListener('abort', abandon, { once: true });
      waiting.push({ question, settle, signal });
      void goOn();
    });
  return {
    ask: ask as Reviewer['ask'], // the thread answers a question of a kind with that kind's value
    warmSoon() {
      clearTimeout(warming);
      // Where it fails, the first question fails as well and says why.
      warming = setTimeout(() => void expect().then(() => ask({ kind: 'warm' })), warmAfter).unref();
    },
    async pause() {
      state = 'paused';
      await stopThread();
    },
    resume() {
      if (state === 'paused') state = 'going';
      void goOn();
    },
    async end() {
      state = 'ended';
      await stopThread();
      await goOn();
    },
  };
}

function answerIn(reply: Exclude<ThreadReply, { readonly kind: 'stopped' }>, file: string): AnyReviewAnswer {
  if (reply.kind === 'answered') return reply.answer;
  return trouble(
    'RECORDS_UNAVAILABLE',
    file,
    `The review could not be worked out: ${reply.because}.`,
    'Ask again. Nothing that was recorded is lost, and the work at the bench goes on.',
  );
}

function closing(file: string): AnyReviewAnswer {
  return trouble('RECORDS_UNAVAILABLE', file, 'Ohmward is being closed.', 'Open it again, then ask again.');
}
