import type { Problem } from '../../../trees/document/index.ts';
import { mendOf, type DraftDocument, type Mend } from '../../../trees/edit/index.ts';

/** By problem, its mend where there is one. */
export type Mends = ReadonlyMap<Problem, Mend>;

/**
 * The mends of the problems that are shown, one version after another. While the checks are behind the document they are what they
 * were, so that nothing comes and goes with each keystroke; they are asked for again once the checks are of the document.
 */
export function keepMends(): (
  problems: readonly Problem[],
  document: DraftDocument,
  behind: boolean,
) => Mends {
  let last: Mends = new Map();
  return (problems, document, behind) => {
    if (!behind)
      last = new Map(
        problems.flatMap((problem): [Problem, Mend][] => {
          const mend = mendOf(document, problem);
          return mend === null ? [] : [[problem, mend]];
        }),
      );
    return last;
  };
}
