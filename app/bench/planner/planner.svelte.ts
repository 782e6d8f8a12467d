import type { Advice } from '../../../trees/plan/index.ts';
import type { PlannerQuestion } from './planner-question.ts';
import type { PlannerThread, StartThread } from './planner-thread.ts';
import type { FromPlanner } from './protocol.ts';
import { openTelling } from './telling.ts';

/** What the planner said, and how long it took. */
export interface PlannerAnswer {
  readonly advice: Advice;
  readonly milliseconds: number;
}

/** Is told the answer, or null where there is none to this question. */
type Take = (answer: PlannerAnswer | null) => void;

interface Asking {
  readonly question: PlannerQuestion;
  /** Null once nobody waits for the answer any more. */
  take: Take | null;
}

/**
 * The planner as the bench asks it: one thread, started at the first question, that gets one question at a time. Whoever
 * asks withdraws the question when it is out of date, so that only the newest are answered. Where the thread cannot be
 * had the answers just do not come, and {@link Planner.trouble} says so once.
 */
export class Planner {
  readonly #start: StartThread;
  readonly #tellings = openTelling();
  #thread: PlannerThread | null = null;
  #underWay: { readonly number: number; readonly asking: Asking } | null = null;
  #waiting: readonly Asking[] = [];
  #asked = 0;
  #noted = false;
  /** False where no answer will ever come. */
  available = $state(true);
  /** What is wrong with the planner, in a sentence; empty where nothing is, or once it was put away. */
  trouble = $state('');

  constructor(start: StartThread) {
    this.#start = start;
  }

  /** Asks a question; gives back what withdraws it. `take` is called once, later, if at all. */
  ask(question: PlannerQuestion, take: Take): () => void {
    if (!this.available) return () => undefined;
    const asking: Asking = { question, take };
    this.#waiting = [...this.#waiting, asking];
    this.#next();
    return () => {
      asking.take = null;
      this.#waiting = this.#waiting.filter((one) => one !== asking);
    };
  }

  /** Ends the thread; nothing more is answered. */
  stop(): void {
    this.#thread?.stop();
    this.#thread = null;
    this.#waiting = [];
    this.#underWay = null;
    this.available = false;
  }

  #next(): void {
    const [asking, ...waiting] = this.#waiting;
    if (asking === undefined || this.#underWay !== null) return;
    const thread = this.#running();
    if (thread === null) return;
    this.#waiting = waiting;
    this.#asked += 1;
    this.#underWay = { number: this.#asked, asking };
    for (const message of this.#tellings(this.#asked, asking.question)) thread.send(message);
  }

  #running(): PlannerThread | null {
    if (this.#thread !== null || !this.available) return this.#thread;
    try {
      this.#thread = this.#start(
        (answer) => this.#heard(answer),
        (reason) => this.#gone(reason),
      );
    } catch (error) {
      this.#gone(error instanceof Error ? error.message : String(error));
    }
    return this.#thread;
  }

  #heard(answer: FromPlanner): void {
    if (this.#underWay?.number !== answer.number) return;
    const { take } = this.#underWay.asking;
    this.#underWay = null;
    if (answer.kind === 'failed') this.#tell(`it could not answer (${answer.message})`);
    take?.(answer.kind === 'failed' ? null : { advice: answer.advice, milliseconds: answer.milliseconds });
    this.#next();
  }

  #gone(reason: string): void {
    this.stop();
    this.#tell(reason);
  }

  #tell(reason: string): void {
    if (!this.#noted) this.trouble = `The planner is not available: ${reason}. The walk goes on without it.`;
    this.#noted = true;
  }
}
