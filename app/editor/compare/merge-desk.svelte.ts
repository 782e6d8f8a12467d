import { checkTree, type Problem } from '../../../trees/document/index.ts';
import {
  changesTo,
  liveTree,
  mergeDrafts,
  tellConflict,
  tellDifferences,
  type Change,
  type Choices,
  type Merged,
  type Side,
  type Told,
  type ToldConflict,
  type Versions,
} from '../../../trees/edit/index.ts';

/** A merge being decided: what others have published since, what conflicts, and what comes of it. */
export class MergeDesk {
  readonly versions: Versions;
  /** What the others' revision has that the draft's base had not. */
  readonly theirs: readonly Told[];
  readonly conflicts: readonly ToldConflict[];
  choices = $state.raw<Choices>({});
  readonly merged: Merged = $derived.by(() => {
    const { base, theirs, yours } = this.versions;
    return mergeDrafts(base, theirs, yours, this.choices);
  });
  /** Conflicts that nothing is chosen for yet. */
  readonly left: number = $derived.by(
    () => this.conflicts.filter(({ at }) => this.choices[at] === undefined).length,
  );
  readonly errors: readonly Problem[] = $derived.by(() => {
    const { tree, blanks } = liveTree(this.merged.document);
    return [...blanks, ...checkTree(tree)].filter(({ severity }) => severity === 'error');
  });

  constructor(versions: Versions) {
    this.versions = versions;
    this.theirs = tellDifferences(versions.base, versions.theirs);
    this.conflicts = mergeDrafts(versions.base, versions.theirs, versions.yours).conflicts.map((conflict) =>
      tellConflict(versions, conflict),
    );
  }

  choose(at: string, side: Side): void {
    this.choices = { ...this.choices, [at]: side };
  }

  /** The changes that make the draft what has been decided. */
  changes(): readonly Change[] {
    return changesTo(this.versions.yours, this.merged.document);
  }
}
