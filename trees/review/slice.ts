import type { Outcome } from '../chart/index.ts';

/** Jobs that have something in common, as a review's groups have them. */
export type GroupSlice =
  | { readonly kind: 'tree'; readonly tree: string }
  | { readonly kind: 'symptom'; readonly tree: string; readonly symptom: string }
  | { readonly kind: 'finding'; readonly tree: string; readonly finding: string }
  | { readonly kind: 'board'; readonly tree: string; readonly board: string }
  | { readonly kind: 'technician'; readonly technician: string };

/** What was clicked: the jobs that a figure is made of. */
export type Slice =
  | { readonly kind: 'all' }
  | { readonly kind: 'first-time-fixed' }
  | { readonly kind: 'not-first-time-fixed' }
  | { readonly kind: 'month'; readonly month: string }
  | { readonly kind: 'outcome'; readonly outcome: Outcome }
  | (GroupSlice & {
      /** Only those whose comeback window has passed. */
      readonly judged?: true | undefined;
    })
  /** Back within so many days. */
  | { readonly kind: 'back'; readonly within: number }
  /** Closed as fixed with this finding; those of them back within so many days. */
  | { readonly kind: 'finding-fixed'; readonly tree: string; readonly finding: string }
  | {
      readonly kind: 'finding-back';
      readonly tree: string;
      readonly finding: string;
      readonly within: number;
    }
  /** Jobs in which this finding's remedy was proved first; those that it did not mend; those that had this other one. */
  | { readonly kind: 'tried'; readonly tree: string; readonly finding: string }
  | { readonly kind: 'tried-in-vain'; readonly tree: string; readonly finding: string }
  | { readonly kind: 'tried-instead'; readonly tree: string; readonly finding: string; readonly was: string }
  /** A symptom's jobs whose finding was confirmed; those whose repair was proven. */
  | { readonly kind: 'found'; readonly tree: string; readonly symptom: string }
  | { readonly kind: 'proven'; readonly tree: string; readonly symptom: string }
  /** A technician's jobs of a symptom whose comeback window has passed. */
  | { readonly kind: 'judged'; readonly technician: string; readonly tree: string; readonly symptom: string }
  | {
      readonly kind: 'branch';
      readonly tree: string;
      readonly symptom: string;
      readonly step: string;
      readonly result: string;
    }
  /** A percentage from..to was shown beside a finding (shares, `to` open but for 1). */
  | { readonly kind: 'shown'; readonly from: number; readonly to: number }
  | { readonly kind: 'advised'; readonly taken: boolean };
