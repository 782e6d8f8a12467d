import { rateOf } from '../statistics/index.ts';
import { FIRST_TIME, STILL_OPEN, type Chosen } from './choose.ts';
import type { FirstTimeFix, Group } from './figures.ts';

/** By code: jobs closed, fixed the first time, and of those the ones that may still come back. */
export interface FixTable {
  readonly closed: Uint32Array;
  readonly fixed: Uint32Array;
  readonly open: Uint32Array;
}

/** What first-time fix is grouped by, each with the number of its codes. */
export interface FixTables {
  readonly symptoms: FixTable;
  readonly findings: FixTable;
  readonly boards: FixTable;
  readonly technicians: FixTable;
}

export function fixTable(codes: number): FixTable {
  return { closed: new Uint32Array(codes), fixed: new Uint32Array(codes), open: new Uint32Array(codes) };
}

/** Counts the jobs of a review by all that its groups go by, in one pass. */
export function fixTablesOf({ blocks, names }: Chosen): FixTables {
  const symptoms = fixTable(names.symptoms.length);
  const findings = fixTable(names.findings.length);
  const boards = fixTable(names.boards.length);
  const technicians = fixTable(names.technicians.length);
  for (const { columns, rows, flags } of blocks) {
    const { symptom, finding, board, technician } = columns;
    for (let at = 0; at < rows.length; at += 1) {
      const row = rows[at] ?? 0;
      const flag = flags[at] ?? 0;
      countIn(symptoms, symptom[row] ?? 0, flag);
      countIn(findings, finding[row] ?? 0, flag);
      countIn(boards, board[row] ?? 0, flag);
      countIn(technicians, technician[row] ?? 0, flag);
    }
  }
  return { symptoms, findings, boards, technicians };
}

export function countIn({ closed, fixed, open }: FixTable, code: number, flag: number): void {
  closed[code] = (closed[code] ?? 0) + 1;
  if (flag === 0) return;
  fixed[code] = (fixed[code] ?? 0) + (flag & FIRST_TIME);
  if ((flag & STILL_OPEN) !== 0) open[code] = (open[code] ?? 0) + 1;
}

/** First-time fix of one code's jobs. */
export function fixOf({ closed, fixed, open }: FixTable, code: number): FirstTimeFix {
  return firstTimeFix(closed[code] ?? 0, fixed[code] ?? 0, open[code] ?? 0);
}

/** First-time fix of all. */
export function fixOfAll({ closed, fixed, open }: FixTable): FirstTimeFix {
  return firstTimeFix(total(closed), total(fixed), total(open));
}

/** The groups that have a job, most jobs first. Entry 0 stands for none and is left out. */
export function groupsOf(
  table: FixTable,
  names: readonly { readonly id: string; readonly tree: string | null }[],
): readonly Group[] {
  return names
    .flatMap((name, code) => {
      if (code === 0 || (table.closed[code] ?? 0) === 0) return [];
      return [{ ...name, ...fixOf(table, code) }];
    })
    .sort((a, b) => b.closed - a.closed || byText(a.tree ?? '', b.tree ?? '') || byText(a.id, b.id));
}

/** The table of trees, from that of their symptoms. */
export function treesOf(
  symptoms: FixTable,
  names: Chosen['names']['symptoms'],
): { readonly table: FixTable; readonly names: readonly { readonly id: string; readonly tree: string }[] } {
  const trees = [...new Set(names.slice(1).map(({ tree }) => tree))];
  const numbers = new Map(trees.map((tree, place) => [tree, place + 1]));
  const table = fixTable(trees.length + 1);
  names.forEach(({ tree }, code) => {
    const into = code === 0 ? 0 : (numbers.get(tree) ?? 0);
    table.closed[into] = (table.closed[into] ?? 0) + (symptoms.closed[code] ?? 0);
    table.fixed[into] = (table.fixed[into] ?? 0) + (symptoms.fixed[code] ?? 0);
    table.open[into] = (table.open[into] ?? 0) + (symptoms.open[code] ?? 0);
  });
  return { table, names: ['', ...trees].map((tree) => ({ id: tree, tree })) };
}

/** Orders texts by their code units, the same on every machine. */
export function byText(one: string, other: string): number {
  return one < other ? -1 : Number(one > other);
}

function firstTimeFix(closed: number, fixed: number, stillOpen: number): FirstTimeFix {
  const { share, low, high } = rateOf(fixed, closed);
  return { closed, fixed, rate: share, low, high, stillOpen };
}

function total(table: Uint32Array): number {
  let sum = 0;
  for (const count of table) sum += count;
  return sum;
}
