import type { ReviewNames } from '../contract/index.ts';
import { UNLISTED } from '../../trees/document/index.ts';
import type { Branch, Group } from '../../trees/review/index.ts';

type Part = Pick<Group, 'id' | 'tree'>;

/** What the ids of a review are called; an id that the current trees no longer have stands for itself. */
export interface Titles {
  readonly tree: (of: Part) => string;
  readonly symptom: (of: Part) => string;
  readonly finding: (of: Part) => string;
  readonly board: (of: Part) => string;
  readonly technician: (of: Part) => string;
  readonly branch: (of: Branch) => string;
}

export function reviewTitles(names: ReviewNames): Titles {
  const titled = (titles: Readonly<Record<string, string>>, { tree, id }: Part): string => {
    const title = titles[`${tree ?? ''}/${id}`];
    return `${tree ?? ''}/${id}${title === undefined ? '' : `: ${title}`}`;
  };
  return {
    tree: ({ id }) => `${id}: ${names.trees[id] ?? ''}`,
    symptom: (of) => titled(names.symptoms, of),
    finding: (of) =>
      of.id === UNLISTED ? `${of.tree ?? ''}: something not in this tree` : titled(names.findings, of),
    board: ({ tree, id }) => `${tree ?? ''}: ${id === '' ? 'none named' : id}`,
    technician: ({ id }) => names.technicians[id] ?? id,
    branch: ({ tree, symptom, step, test, result }) =>
      `${tree}/${symptom}/${step}: ${names.tests[`${tree}/${test}`] ?? test}, ${names.results[`${tree}/${test}/${result}`] ?? result}`,
  };
}
