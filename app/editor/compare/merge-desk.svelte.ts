import { checkTree, type Problem, type Tree } from '../../../trees/document/index.ts';
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
import { orderProblems } from '../desk/order-problems.ts';
import { placeWords } from '../desk/place-words.ts';
import { inTitles, type SaidProblem } from '../desk/problem-words.ts';
import { nothingChosen, type ChosenBefore } from './chosen-before.ts';

/** A merge being decided: what others have published since, what conflicts, and what comes of it. */
export class MergeDesk {
  readonly versions: Versions;
  /** What the others' revision has that the draft's base had not. */
  readonly theirs: readonly Told[];
  readonly conflicts: readonly ToldConflict[];
  choices = $state.raw<Choices>({});
  /** The choices before the last that was made for many at once; null where that was not the last. */
  former = $state.raw<Choices | null>(null);
  readonly #before: ChosenBefore;
  readonly merged: Merged = $derived.by(() => {
    const { base, theirs, yours } = this.versions;
    return mergeDrafts(base, theirs, yours, this.choices);
  });
  /** Conflicts that nothing is chosen for yet, and how many those are. */
  readonly open: readonly ToldConflict[] = $derived.by(() =>
    this.conflicts.filter(({ at }) => this.choices[at] === undefined),
  );
  readonly left: number = $derived(this.open.length);
  readonly errors: readonly SaidProblem[] = $derived.by(() => {
    const { tree, blanks } = liveTree(this.merged.document);
    return orderProblems([...blanks, ...checkTree(tree)])
      .filter(({ severity }) => severity === 'error')
      .map((problem) => ({
        ...this.#inTitles(tree, problem),
        where: placeWords(this.merged.document, tree, problem.at),
      }));
  });

  /** `before` is what was chosen when the same merge was left, and keeps what is chosen now. */
  constructor(versions: Versions, before = nothingChosen()) {
    this.versions = versions;
    this.theirs = tellDifferences(versions.base, versions.theirs);
    this.conflicts = mergeDrafts(versions.base, versions.theirs, versions.yours).conflicts.map((conflict) =>
      tellConflict(versions, conflict),
    );
    this.#before = before;
    this.choices = Object.fromEntries(
      this.conflicts.flatMap((conflict) => {
        const side = before.get(keyOf(conflict));
        return side === undefined ? [] : [[conflict.at, side] as const];
      }),
    );
  }

  choose(at: string, side: Side): void {
    this.former = null;
    this.#put({ ...this.choices, [at]: side });
  }

  /** Chooses a side wherever nothing is chosen yet; everywhere, where everything is. */
  chooseRest(side: Side): void {
    const rest = this.left === 0 ? this.conflicts : this.open;
    this.former = this.choices;
    this.#put({ ...this.choices, ...Object.fromEntries(rest.map(({ at }) => [at, side])) });
  }

  /** Takes the last choice back that was made for many at once. */
  takeBack(): void {
    if (this.former === null) return;
    this.#put(this.former);
    this.former = null;
  }

  #put(choices: Choices): void {
    this.choices = choices;
    for (const conflict of this.conflicts) {
      const side = choices[conflict.at];
      if (side === undefined) this.#before.delete(keyOf(conflict));
      else this.#before.set(keyOf(conflict), side);
    }
  }

  /** What the merged tree has no more is named as the side has it that still has it. */
  #inTitles(tree: Tree, problem: Problem): Problem {
    const { theirs, yours } = this.versions;
    return [tree, liveTree(theirs).tree, liveTree(yours).tree].reduce(
      (said, named) => inTitles(named, said),
      problem,
    );
  }

  /** The changes that make the draft what has been decided. */
  changes(): readonly Change[] {
    return changesTo(this.versions.yours, this.merged.document);
  }
}

/** A conflict by all that it says, so that one with another content is another one. */
function keyOf(conflict: ToldConflict): string {
  return JSON.stringify([conflict.at, conflict.was, conflict.theirs, conflict.yours]);
}
