import type { Change } from '../change.ts';

/** Something added to a document: its id, and the changes that add it. */
export interface Made {
  readonly id: string;
  readonly changes: readonly Change[];
}
