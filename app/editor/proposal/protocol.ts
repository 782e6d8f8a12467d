import type { Change } from '../../../trees/edit/index.ts';
import type { Goal, Move, ProposedPart } from '../../../trees/plan/index.ts';
import type { ShopFigures } from '../reckoner/index.ts';

/** What a better order is looked for: a draft's path for one symptom. */
export interface ProposalQuestion {
  /** The draft's document as JSON. */
  readonly text: string;
  readonly figures: ShopFigures;
  readonly symptom: string;
  readonly goal: Goal;
  readonly method: 'exact' | 'fast';
  /** Milliseconds after which an exact search is to come to its end. */
  readonly within: number;
}

export type ToProposer =
  | { readonly kind: 'propose'; readonly question: ProposalQuestion }
  /** Asks what a choice of parts makes; `number` counts these. */
  | { readonly kind: 'take'; readonly number: number; readonly taken: readonly string[] };

/** What a path costs, a unit; to isolate `right` are those ended at the right finding, to fix those mended. */
export interface PathCost {
  readonly minutes: number;
  readonly right: number;
}

/** A path in short: how many steps it has, and the tests it begins with. */
export interface PathShape {
  readonly steps: number;
  readonly tests: readonly string[];
}

/** A branch that leads elsewhere in the proposed step, by the `go` of each; null where it has no such branch. */
export interface OtherBranch {
  readonly result: string;
  readonly before: string | null;
  readonly after: string | null;
}

/** A part with what it changes: another first step or test, other branches. */
export interface ShownPart extends ProposedPart {
  /** First step before and after; null where the part is a step's. */
  readonly first: readonly [before: string | null, after: string] | null;
  readonly test: readonly [before: string, after: string] | null;
  readonly branches: readonly OtherBranch[];
}

export type FromProposer =
  | {
      readonly kind: 'proposed';
      readonly changed: boolean;
      /** Null where the symptom had no path. */
      readonly before: PathCost | null;
      readonly after: PathCost;
      readonly gap: number | null;
      readonly shape: { readonly before: PathShape; readonly after: PathShape };
      readonly moves: readonly Move[];
      readonly parts: readonly ShownPart[];
      /** By new step its test, so that it can be named. */
      readonly newSteps: readonly (readonly [step: string, test: string])[];
    }
  | {
      readonly kind: 'taken';
      readonly number: number;
      /** With all that they need; null where the mixture would have an error. */
      readonly made: {
        readonly cost: PathCost;
        readonly shape: PathShape;
        /** By part taken the steps that go with it, as nothing comes to them any more. */
        readonly gone: ReadonlyMap<string, readonly string[]>;
        readonly changes: readonly Change[];
      } | null;
    }
  | { readonly kind: 'failed'; readonly message: string };
