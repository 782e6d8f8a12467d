import { withNeeds } from '../../../trees/plan/index.ts';
import type { ProposerThread, StartProposer } from './proposer-thread.ts';
import type { FromProposer, ProposalQuestion } from './protocol.ts';

export type Proposed = Extract<FromProposer, { kind: 'proposed' }>;
type Made = Extract<FromProposer, { kind: 'taken' }>['made'];

/** Where the search stands. */
export type ProposalState =
  | { readonly kind: 'idle' }
  | { readonly kind: 'searching' }
  | { readonly kind: 'proposed'; readonly proposed: Proposed }
  | { readonly kind: 'failed'; readonly message: string };

/**
 * A better order of tests: looked for in a thread started for it and ended to give it up, then taken whole or part by part, each
 * choice evaluated anew so that the minutes said of it are its own.
 */
export class ProposalDesk {
  readonly #start: StartProposer;
  #thread: ProposerThread | null = null;
  #asked = 0;

  state = $state.raw<ProposalState>({ kind: 'idle' });
  /** Parts taken, those that they need included. */
  taken = $state.raw<readonly string[]>([]);
  /** What the parts taken make; null where they cannot stand together. */
  made = $state.raw<Made>(null);
  /** What the parts taken make is still being reckoned. */
  reckoning = $state(false);

  constructor(start: StartProposer) {
    this.#start = start;
  }

  /** Looks for a better order; a search under way is given up. */
  search(question: ProposalQuestion): void {
    this.stop();
    this.state = { kind: 'searching' };
    try {
      this.#thread = this.#start(
        (answer) => this.#heard(answer),
        (reason) => this.#failed(reason),
      );
      this.#thread.send({ kind: 'propose', question });
    } catch (error) {
      this.#failed(error instanceof Error ? error.message : String(error));
    }
  }

  /** Ends the thread, and with it a search under way. */
  stop(): void {
    this.#thread?.stop();
    this.#thread = null;
    this.state = { kind: 'idle' };
    this.#choose([]);
    this.reckoning = false;
  }

  /** Takes a part with all that it needs. */
  take(id: string): void {
    if (this.state.kind !== 'proposed') return;
    this.#choose([...withNeeds(this.state.proposed.parts, [...this.taken, id])]);
  }

  /** Leaves a part, and with it those taken that need it. */
  leave(id: string): void {
    if (this.state.kind !== 'proposed') return;
    const { parts } = this.state.proposed;
    const needing = parts.filter(({ needs }) => needs.includes(id)).map((part) => part.id);
    this.#choose(this.taken.filter((one) => one !== id && !needing.includes(one)));
  }

  takeAll(): void {
    if (this.state.kind === 'proposed') this.#choose(this.state.proposed.parts.map(({ id }) => id));
  }

  #choose(taken: readonly string[]): void {
    this.taken = taken;
    this.made = null;
    this.#asked += 1;
    this.reckoning = this.#thread !== null;
    this.#thread?.send({ kind: 'take', number: this.#asked, taken });
  }

  #heard(answer: FromProposer): void {
    switch (answer.kind) {
      case 'proposed':
        this.state = { kind: 'proposed', proposed: answer };
        if (answer.changed) this.takeAll();
        return;
      case 'taken':
        if (answer.number !== this.#asked) return;
        this.made = answer.made;
        this.reckoning = false;
        return;
      case 'failed':
        return this.#failed(answer.message);
    }
  }

  #failed(message: string): void {
    this.#thread?.stop();
    this.#thread = null;
    this.reckoning = false;
    this.state = { kind: 'failed', message };
  }
}
