import type { History } from '../../../trees/belief/index.ts';
import type { Problem } from '../../../trees/document/index.ts';
import type { Change } from '../../../trees/edit/index.ts';
import type { StepTraffic } from '../../../trees/plan/index.ts';

/** What is reckoned with besides the document. */
export interface ShopFigures {
  readonly history: History;
  /** What an hour of work costs, in the currency of parts' prices; null where parts do not count. */
  readonly rate: number | null;
}

/** The shop's history sorted by the bands, results and ids of a tree, `sorting` being what of the tree that hangs on (`sortingOf`). */
export interface SortedHistory {
  readonly sorting: string;
  readonly history: History;
}

/** What the window tells the reckoner. `version` counts the messages; an answer names the last one that it knows of. */
export type ToReckoner = { readonly version: number } & (
  | {
      readonly kind: 'open';
      /** The draft's document as JSON. */
      readonly text: string;
      /** The changes that take the last edit back; null where there is none. */
      readonly back: readonly Change[] | null;
      /** The text of the published revision that the draft stands on; null where there is none. */
      readonly published: string | null;
      readonly figures: ShopFigures;
      /** The sortings that there are; null where every tree goes by the history among the figures. */
      readonly sorted: readonly SortedHistory[] | null;
      readonly symptom: string | null;
    }
  | { readonly kind: 'edit'; readonly changes: readonly Change[]; readonly back: readonly Change[] | null }
  | { readonly kind: 'show'; readonly symptom: string | null }
  | { readonly kind: 'figures'; readonly figures: ShopFigures }
  /** One more sorting that there is. */
  | { readonly kind: 'sorted'; readonly sorted: SortedHistory }
);

/** Which of the three trees that are set side by side: as it is, before the last edit, or as published. */
export type Which = 'now' | 'before' | 'published';

/** What coming to the finding costs, a unit; probabilities are of all units that come with the symptom. */
export interface IsolateCost {
  readonly minutes: number;
  readonly tests: number;
  readonly right: number;
}

/** What it takes until the unit is mended or passed on. */
export interface FixCost {
  readonly minutes: number;
  readonly fixed: number;
  readonly passedOn: number;
}

/** How many units pass the steps and branches of a tree that come with a symptom. */
export interface Traffic {
  readonly symptom: string;
  readonly steps: readonly StepTraffic[];
}

/** Why there is no cost: errors in the way, no path to be walked, or no such symptom. */
export type NoCost = 'errors' | 'no-path' | 'no-symptom';

export type Costed<Cost> =
  { readonly ok: true; readonly cost: Cost } | { readonly ok: false; readonly because: NoCost };

/** What the reckoner answers, the checks of a version before its costs, and these in the order given here. */
export type FromReckoner = { readonly version: number } & (
  | { readonly kind: 'checks'; readonly problems: readonly Problem[]; readonly milliseconds: number }
  | {
      readonly kind: 'cost';
      readonly which: Which;
      readonly symptom: string;
      readonly costed: Costed<IsolateCost>;
      readonly milliseconds: number;
    }
  | { readonly kind: 'totals'; readonly totals: readonly (readonly [symptom: string, Costed<IsolateCost>])[] }
  /** How many units pass the branches of the tree as it is; follows all costs. Null where it is what was said last. */
  | { readonly kind: 'traffic'; readonly traffic: Traffic | null }
  | {
      readonly kind: 'fix';
      readonly which: Which;
      readonly symptom: string;
      readonly costed: Costed<FixCost>;
    }
  /** There is no history sorted as this tree sorts, and so no cost of it until there is. */
  | { readonly kind: 'unsorted'; readonly which: Which }
  | { readonly kind: 'failed'; readonly message: string }
);
