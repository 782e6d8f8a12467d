import type { ReviewNames, ReviewSlice } from '../../../main/contract/index.ts';
import type { Review } from '../../../trees/review/index.ts';
import { findingTitle, treeBeside } from '../words/titles.ts';
import type { Column } from './table.ts';

/** What a column needs to name a part of a tree: its id, its name in the export, and its title. */
export interface PartWords<Row> {
  readonly head: string;
  readonly id: (row: Row) => string;
  readonly text: (row: Row) => string;
  /** Which tree it is of, where that tells it from others. */
  readonly soft: (row: Row) => string;
  /** One may sort by its title. */
  readonly sorts: boolean;
}

/** The column of the parts of trees that figures are of. */
export function partColumn<Row extends { readonly tree: string | null }>(
  title: string,
  { head, id, text, soft, sorts }: PartWords<Row>,
): Column<Row> {
  return {
    title,
    isText: true,
    text,
    soft,
    plain: [
      { head: 'tree', cell: ({ tree }) => tree },
      { head, cell: id },
      { head: 'title', cell: text },
    ],
    ...(sorts ? { order: text } : {}),
  };
}

/** What a row of figures by finding is of. */
export interface OfFinding {
  readonly tree: string;
  readonly finding: string;
}

export function findingKey({ tree, finding }: OfFinding): string {
  return `${tree}/${finding}`;
}

export function findingSlice({ tree, finding }: OfFinding): ReviewSlice {
  return { kind: 'finding', tree, finding };
}

export function findingColumn<Row extends OfFinding>(
  review: Review,
  names: ReviewNames,
  sorts: boolean,
): Column<Row> {
  return partColumn('Finding', {
    head: 'finding',
    id: ({ finding }) => finding,
    text: ({ tree, finding }) => findingTitle(names, tree, finding),
    soft: ({ tree }) => treeBeside(names, review, tree),
    sorts,
  });
}
