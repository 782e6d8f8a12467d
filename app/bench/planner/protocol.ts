import type { History } from '../../../trees/belief/index.ts';
import type { Advice } from '../../../trees/plan/index.ts';
import type { PlannerQuestion } from './planner-question.ts';

/**
 * What the window tells the planner's thread. A tree crosses as its text: what it is read as has ids for keys, which
 * copying would hang on objects that know names such as `constructor` by themselves.
 */
export type ToPlanner =
  | { readonly kind: 'tree'; readonly revisionId: string; readonly text: string }
  | {
      readonly kind: 'history';
      readonly revisionId: string;
      readonly version: number;
      readonly history: History;
    }
  | ({
      readonly kind: 'ask';
      readonly number: number;
      /** The history that the question is asked with. */
      readonly version: number;
    } & Omit<PlannerQuestion, 'text' | 'history'>);

/** What the planner's thread answers to a question. */
export type FromPlanner =
  | {
      readonly kind: 'answer';
      readonly number: number;
      readonly advice: Advice;
      readonly milliseconds: number;
    }
  | { readonly kind: 'failed'; readonly number: number; readonly message: string };
