import type { ReviewChoices } from '../../../main/contract/index.ts';

/** The boards of a tree, of all trees where none is chosen; each once. */
export function boardsOf({ boards }: ReviewChoices, tree: string | null): readonly string[] {
  const those = boards.filter((one) => tree === null || one.tree === tree);
  return [...new Set(those.map(({ board }) => board))];
}

/** The choices, and what is chosen where no closed job has it, so that a list does not show another in its place. */
export function shownWith(choices: readonly string[], chosen: string | null): readonly string[] {
  return chosen === null || choices.includes(chosen) ? choices : [...choices, chosen];
}
