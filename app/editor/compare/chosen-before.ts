import type { Side } from '../../../trees/edit/index.ts';

/** What has been chosen in a merge, by the conflict it was chosen for; a conflict that has become another one is asked anew. */
export type ChosenBefore = Map<string, Side>;

const merges = new Map<string, ChosenBefore>();

/** What was chosen in a draft's merge when it was left, while the window is open. */
export function chosenBefore(draftId: string): ChosenBefore {
  const known = merges.get(draftId) ?? nothingChosen();
  merges.set(draftId, known);
  return known;
}

export function nothingChosen(): ChosenBefore {
  return new Map();
}
