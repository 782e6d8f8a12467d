import { haveSameLeads, type Tree } from '../../../trees/document/index.ts';

/** Are two trees' paths drawn alike, given where their units go: do they differ in nothing but weights? */
export function pathsAlike(one: Tree['symptoms'], other: Tree['symptoms']): boolean {
  return (
    one === other ||
    everyAlike(
      one,
      other,
      (was, is) => was.title === is.title && was.first === is.first && stepsAlike(was, is),
    )
  );
}

type Path = Tree['symptoms'][string];

function stepsAlike({ steps: one }: Path, { steps: other }: Path): boolean {
  return one === other || everyAlike(one, other, haveSameLeads);
}

/** Whether two records have the same ids in the same order, and parts alike by them. */
function everyAlike<Part>(
  one: Readonly<Record<string, Part>>,
  other: Readonly<Record<string, Part>>,
  alike: (was: Part, is: Part) => boolean,
): boolean {
  const ids = Object.keys(one);
  const others = Object.keys(other);
  return (
    ids.length === others.length &&
    ids.every((id, place) => {
      const [was, is] = [one[id], other[id]];
      return (
        id === others[place] && (was === is || (was !== undefined && is !== undefined && alike(was, is)))
      );
    })
  );
}
