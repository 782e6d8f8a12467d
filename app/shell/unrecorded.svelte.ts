import type { Trouble } from './trouble.ts';

/** Something that is worked on in a window, and whether all of it is recorded; what it says may change at any time. */
export interface Worked {
  /** What it is, such as: draft of “Kittiwake KW-1”. */
  readonly title: string;
  /** The place where it is worked on. */
  readonly hash: string;
  /** True while something that was done is not recorded yet. */
  readonly pending: boolean;
  /** Why it is not recorded; null where it is, or where that is still under way. */
  readonly trouble: Trouble | null;
  /** How many edits are not recorded. */
  readonly edits: number;
  /** It cannot be recorded as it is, however often that is tried. */
  readonly isOutrun: boolean;
  /** Tries to record it at once. */
  again(): void;
  /** Lets it be lost. */
  giveUp(): void;
}

/** What is worked on in this window, wherever one is in it: the window is not closed, nor trouble kept quiet, while something is not recorded. */
class Unrecorded {
  #worked = $state.raw<readonly Worked[]>([]);
  /** Whether closing the window would lose something. */
  readonly any: boolean = $derived(this.#worked.some(({ pending }) => pending));
  /** What could not be recorded up to now. */
  readonly inTrouble: readonly Worked[] = $derived(
    this.#worked.filter(({ pending, trouble }) => pending && trouble !== null),
  );

  /** Watches over something; gives back what ends that. */
  watch(worked: Worked): () => void {
    this.#worked = [...this.#worked, worked];
    return () => (this.#worked = this.#worked.filter((one) => one !== worked));
  }
}

export const unrecorded = new Unrecorded();
