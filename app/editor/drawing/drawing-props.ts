import type { Problem, Tree } from '../../../trees/document/index.ts';
import type { BranchShares } from './authored-shares.ts';

/** What became of a place between two revisions. */
export type Mark = 'added' | 'removed' | 'changed';

/** What the drawing is given, and whom it tells. Pointers are JSON pointers into the document. It changes nothing itself. */
export interface DrawingProps {
  readonly tree: Tree;
  /** The symptom whose path is drawn. */
  readonly symptom: string;
  /** Where the symptom's units go; else the authors' weights say it. */
  readonly shares?: BranchShares | undefined;
  readonly problems?: readonly Problem[];
  /** The pointer of what is selected in the workspace. */
  readonly selected?: string;
  /** The pointers of all that is selected, where that is more than one. */
  readonly marked?: readonly string[];
  readonly readonly?: boolean;
  readonly marks?: ReadonlyMap<string, Mark> | undefined;
  /** Something was selected: what is to be shown, and all that is selected with it. */
  readonly onselect?: (pointer: string, all: readonly string[]) => void;
  /** Have a result's branch lead to `go`. */
  readonly onlink?: (step: string, result: string, go: string) => void;
  readonly onunlink?: (step: string, result: string) => void;
  /** Have the path start at a step. */
  readonly onstart?: (step: string) => void;
  /** Add a step or finding where a result leads to nothing, or (without a result) a first step. */
  readonly onadd?: (step: string | null, result: string | null) => void;
  /** Go into what is selected: its form. */
  readonly onopen?: (pointer: string) => void;
  /** Show another symptom's path, at a step of it if one is named. */
  readonly onpath?: (symptom: string, step: string | undefined) => void;
  readonly oncopy?: (pointers: readonly string[]) => void;
  readonly oncut?: (pointers: readonly string[]) => void;
  readonly onpaste?: () => void;
  /** Whether anything was copied that can be pasted. */
  readonly canPaste?: boolean;
  readonly onduplicate?: (pointers: readonly string[]) => void;
  readonly ondelete?: (pointers: readonly string[]) => void;
}
