import { recordIdSchema, reviewFilterSchema } from '../contract/index.ts';
import type { FactReader } from '../records/index.ts';
import type { ReviewFilter } from '../../trees/review/index.ts';
import { text, type Asked } from './command.ts';
import { value, wrongUse, type Or } from './outcome.ts';

const { from: daySchema, window: windowSchema } = reviewFilterSchema.shape;

/** Which closed jobs are asked for: `--from`, `--to`, `--tree`, `--board`, `--technician` (by name or id) and `--window`. */
export function reviewFilterOf(asked: Asked, reader: FactReader): Or<ReviewFilter> {
  const from = dayOf(asked, 'from');
  if (!from.ok) return from;
  const to = dayOf(asked, 'to');
  if (!to.ok) return to;
  if (from.value !== null && to.value !== null && from.value > to.value)
    return wrongUse(`--from ${from.value} is after --to ${to.value}.`, 'Name the earlier day with --from.');
  const tree = treeOf(asked, reader);
  if (!tree.ok) return tree;
  const board = boardOf(asked, reader, tree.value);
  if (!board.ok) return board;
  const technician = technicianOf(asked, reader);
  if (!technician.ok) return technician;
  const window = windowOf(asked);
  if (!window.ok) return window;
  return value({
    from: from.value,
    to: to.value,
    tree: tree.value,
    board: board.value,
    technician: technician.value,
    window: window.value,
  });
}

function dayOf(asked: Asked, name: 'from' | 'to'): Or<string | null> {
  const written = text(asked, name);
  const read = daySchema.safeParse(written);
  if (read.success) return value(read.data);
  return wrongUse(`--${name} ${written} is not a day.`, 'Write it as YYYY-MM-DD, such as 2026-01-31.');
}

function windowOf(asked: Asked): Or<number> {
  const written = text(asked, 'window');
  const read = windowSchema.safeParse(written === undefined ? undefined : plainNumber(written));
  if (read.success) return value(read.data);
  return wrongUse(
    `--window ${written} is not a number of days from 1 to 730.`,
    'Write the days within which a unit that is back is a comeback, such as --window 90.',
  );
}

function plainNumber(written: string): number {
  return /^\d{1,9}$/.test(written) ? Number(written) : Number.NaN;
}

function treeOf(asked: Asked, reader: FactReader): Or<string | null> {
  const written = text(asked, 'tree');
  if (written === undefined) return value(null);
  const ids = reader.current().map(({ treeId }) => treeId);
  if (ids.includes(written)) return value(written);
  return wrongUse(`There is no tree "${written}" in these records.`, listOf('trees', ids));
}

function boardOf(asked: Asked, reader: FactReader, tree: string | null): Or<string | null> {
  const written = text(asked, 'board');
  if (written === undefined) return value(null);
  const named = reader.facts().names.boards.slice(1);
  const among = named.filter((one) => tree === null || one.tree === tree);
  if (among.some(({ board }) => board === written)) return value(written);
  const where = tree === null ? '' : ` of the tree "${tree}"`;
  const boards = [...new Set(among.map(({ board }) => (board === '' ? '"" (none named)' : board)))];
  return wrongUse(`No closed job${where} has a board "${written}".`, listOf('boards', boards));
}

function technicianOf(asked: Asked, reader: FactReader): Or<string | null> {
  const written = text(asked, 'technician');
  if (written === undefined) return value(null);
  const names = reader.technicians();
  if (recordIdSchema.safeParse(written).success && names.has(written)) return value(written);
  const found = [...names].find(([, name]) => name.toLowerCase() === written.trim().toLowerCase());
  if (found !== undefined) return value(found[0]);
  return wrongUse(
    `There is no technician "${written}" in these records.`,
    listOf('technicians', [...names.values()]),
  );
}

function listOf(what: string, names: readonly string[]): string {
  if (names.length === 0) return `There are no ${what} yet.`;
  return `The ${what} are: ${names.toSorted().join(', ')}.`;
}
