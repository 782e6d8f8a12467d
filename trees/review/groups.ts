import { byText } from './by-text.ts';
import type { Chosen, ChosenBlock } from './choose.ts';
import type { FactColumns, FactNames } from './fact.ts';
import type { Group, Review } from './figures.ts';
import { fixOf, fixTable, FLAGS, mergeCodes, type FixTable } from './fix-table.ts';
import { likeForLike } from './like-for-like.ts';
import type { Tally } from './tally.ts';

type Groups = Pick<
  Review,
  | 'firstTimeFix'
  | 'byTree'
  | 'bySymptom'
  | 'byFinding'
  | 'byBoard'
  | 'byTechnician'
  | 'likeForLike'
  | 'technicianSymptoms'
>;

interface Tables {
  /** By symptom and technician: entry symptom x technicians + technician. */
  readonly pairs: FixTable;
  readonly findings: FixTable;
  readonly boards: FixTable;
}

/**
 * First-time fix of all jobs, and of those that have a tree, symptom, finding, board or technician in common; and technicians
 * held against all where the symptom is the same.
 */
export function openGroups({ names }: Chosen): Tally<Groups> {
  const tables: Tables = {
    pairs: fixTable(names.symptoms.length * names.technicians.length),
    findings: fixTable(names.findings.length),
    boards: fixTable(names.boards.length),
  };
  return {
    add(block) {
      const { finding, board } = block.columns;
      countPairs(tables.pairs, names.technicians.length, block);
      countByCode(tables.findings, finding, block);
      countByCode(tables.boards, board, block);
    },
    result: () => groupsOf(tables, names),
  };
}

function countPairs(pairs: FixTable, people: number, { columns, rows, flags }: ChosenBlock): void {
  const { symptom, technician } = columns;
  for (let at = 0; at < rows.length; at += 1) {
    const row = rows[at] ?? 0;
    const code = (symptom[row] ?? 0) * people + (technician[row] ?? 0);
    const place = code * FLAGS + (flags[at] ?? 0);
    pairs[place] = (pairs[place] ?? 0) + 1;
  }
}

function countByCode(table: FixTable, codes: FactColumns['symptom'], { rows, flags }: ChosenBlock): void {
  for (let at = 0; at < rows.length; at += 1) {
    const place = (codes[rows[at] ?? 0] ?? 0) * FLAGS + (flags[at] ?? 0);
    table[place] = (table[place] ?? 0) + 1;
  }
}

function groupsOf(tables: Tables, names: FactNames): Groups {
  const trees = [...new Set(names.symptoms.slice(1).map(({ tree }) => tree))];
  const treeOf = (code: number): number =>
    code === 0 ? 0 : trees.indexOf(names.symptoms[code]?.tree ?? '') + 1;
  const people = names.technicians.length;
  const symptoms = mergeCodes(tables.pairs, (code) => Math.floor(code / people), names.symptoms.length);
  const technicians = mergeCodes(tables.pairs, (code) => code % people, people);
  const byTree = mergeCodes(symptoms, treeOf, trees.length + 1);
  const named = {
    symptoms: names.symptoms.map(({ tree, symptom }) => ({ id: symptom, tree })),
    findings: names.findings.map(({ tree, finding }) => ({ id: finding, tree })),
    boards: names.boards.map(({ tree, board }) => ({ id: board, tree })),
    technicians: names.technicians.map((id) => ({ id, tree: null })),
  };
  return {
    firstTimeFix: fixOf(
      mergeCodes(symptoms, () => 0, 1),
      0,
    ),
    byTree: listed(
      byTree,
      ['', ...trees].map((tree) => ({ id: tree, tree })),
    ),
    bySymptom: listed(symptoms, named.symptoms),
    byFinding: listed(tables.findings, named.findings),
    byBoard: listed(tables.boards, named.boards),
    // In a funnel nobody comes first.
    byTechnician: listed(technicians, named.technicians).toSorted((a, b) => byText(a.id, b.id)),
    ...likeForLike(tables.pairs, symptoms, names),
  };
}

/** The groups that have a job, most jobs first. Entry 0 stands for none and is left out. */
function listed(
  table: FixTable,
  names: readonly { readonly id: string; readonly tree: string | null }[],
): readonly Group[] {
  return names
    .map((name, code) => ({ ...name, ...fixOf(table, code) }))
    .filter(({ closed }, code) => code > 0 && closed > 0)
    .sort((a, b) => b.closed - a.closed || byText(a.tree ?? '', b.tree ?? '') || byText(a.id, b.id));
}
