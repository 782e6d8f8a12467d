import { untrack } from 'svelte';
import type { Advice, Reasoned } from '../../../trees/plan/index.ts';
import type { Planner } from './planner.svelte.ts';
import type { PlannerQuestion } from './planner-question.ts';

/** What came of a question; no advice where the planner failed at it. */
interface Held {
  readonly question: PlannerQuestion;
  readonly advice: Advice | null;
}

/**
 * The planner's advice to one pane: asked anew wherever the job comes to stand, and held for exactly that standing. Made
 * while a component is, whose end ends it.
 */
export class AdviceDesk {
  readonly #planner: Planner;
  #held = $state.raw<Held | null>(null);
  readonly #question: () => PlannerQuestion | null;

  readonly question = $derived.by(() => this.#question());
  /** What the planner says here; null until it is there, and where it is not asked. */
  readonly advice = $derived(this.#isAnswered ? (this.#held?.advice ?? null) : null);
  /** What the planner would do instead of the tree's next act, where that saves enough to say so. */
  readonly instead = $derived(this.advice?.worthSaying === true ? this.advice.best : null);
  /** What the planner would do where the tree has nothing to say. */
  readonly proposal: Reasoned | null = $derived(
    this.question?.next === null ? (this.advice?.best ?? null) : null,
  );

  constructor(planner: Planner, question: () => PlannerQuestion | null) {
    this.#planner = planner;
    this.#question = question;
    $effect(() => this.#follow(this.question));
  }

  /** An answer is still to come. */
  get pending(): boolean {
    return this.question !== null && !this.#isAnswered && this.#planner.available;
  }

  get planner(): Planner {
    return this.#planner;
  }

  get #isAnswered(): boolean {
    return this.#held !== null && this.#held.question === this.question;
  }

  #follow(question: PlannerQuestion | null): (() => void) | undefined {
    if (question === null) return undefined;
    return untrack(() =>
      this.#planner.ask(question, (answer) => {
        this.#held = { question, advice: answer?.advice ?? null };
      }),
    );
  }
}
