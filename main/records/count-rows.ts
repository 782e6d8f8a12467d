import type { Contribution, History } from '../../trees/belief/index.ts';
import { UNLISTED, type Tree } from '../../trees/document/index.ts';
import type { Database } from './database.ts';

/** Whether a job is counted or taken out of the counts again. */
export type Sign = 1 | -1;

/** The rows that hold the counts. A count that falls to zero loses its row, so that equal histories are equal rows. */
export function countRows(db: Database) {
  const counters = {
    finding: counter(db, 'finding_count', ['symptom', 'finding'], ['jobs']),
    result: counter(db, 'result_count', ['test', 'finding', 'result'], ['jobs']),
    remedy: counter(db, 'remedy_count', ['finding'], ['tried', 'mended']),
  };
  return {
    /** Adds what a closed job shows to the counts of `tree`, or takes it out; ids that the tree has not are passed over. */
    add(tree: Tree, contribution: Contribution, sign: Sign): void {
      for (const { of, key, by } of cellsOf(tree, contribution)) counters[of].add(key, by, sign);
    },
    /** Adds what many closed jobs show, each row written once. */
    addMany(tree: Tree, contributions: readonly Contribution[]): void {
      const cells = Map.groupBy(
        contributions.flatMap((contribution) => cellsOf(tree, contribution)),
        ({ of, key }) => `${of} ${key.join(' ')}`, // ids have no spaces
      );
      for (const [first, ...rest] of cells.values()) {
        if (first === undefined) continue;
        const by = first.by.map((count, at) => rest.reduce((sum, cell) => sum + (cell.by[at] ?? 0), count));
        counters[first.of].add(first.key, by, 1);
      }
    },
    /** The counts of a tree as the fault model takes them. */
    of: (treeId: string): History =>
      historyIn(counters.finding.all(treeId), counters.result.all(treeId), counters.remedy.all(treeId)),
    /** Those of the counts that bear on a job of this symptom with answers to these tests. */
    about: (treeId: string, symptom: string, tests: readonly string[]): History =>
      historyIn(
        counters.finding.under(treeId, symptom),
        tests.flatMap((test) => counters.result.under(treeId, test)),
        counters.remedy.all(treeId),
      ),
    clear(treeId: string): void {
      for (const { clear } of Object.values(counters)) clear(treeId);
    },
  };
}

/** Counts that are kept in memory, as the rows of `tree` would be. */
export function openTally(tree: Tree): {
  readonly add: (contributions: readonly Contribution[]) => void;
  readonly history: () => History;
} {
  const rows: Record<Cell['of'], Map<string, (string | number)[]>> = {
    finding: new Map(),
    result: new Map(),
    remedy: new Map(),
  };
  const addCell = ({ of, key: [, ...ids], by }: Cell): void => {
    const name = ids.join(' '); // ids have no spaces
    const row = rows[of].get(name);
    if (row === undefined) rows[of].set(name, [...ids, ...by]);
    else for (const [at, count] of by.entries()) row[ids.length + at] = Number(row[ids.length + at]) + count;
  };
  return {
    add(contributions) {
      for (const contribution of contributions) for (const cell of cellsOf(tree, contribution)) addCell(cell);
    },
    history: () =>
      historyIn([...rows.finding.values()], [...rows.result.values()], [...rows.remedy.values()]),
  };
}

function historyIn(
  findingRows: readonly Cells[],
  resultRows: readonly Cells[],
  remedyRows: readonly Cells[],
): History {
  const findings = byId<Record<string, number>>();
  for (const [symptom = '', finding = '', jobs] of findingRows) {
    (findings[symptom] ??= byId())[finding] = Number(jobs);
  }
  const results = byId<Record<string, Record<string, number>>>();
  for (const [test = '', finding = '', result = '', jobs] of resultRows) {
    ((results[test] ??= byId())[finding] ??= byId())[result] = Number(jobs);
  }
  const remedies = byId<{ tried: number; mended: number }>();
  for (const [finding = '', tried, mended] of remedyRows) {
    remedies[finding] = { tried: Number(tried), mended: Number(mended) };
  }
  return { findings, results, remedies };
}

/** A record that has nothing but what is put into it: `constructor` is a legal id. */
function byId<V>(): Record<string, V> {
  return Object.create(null) as Record<string, V>;
}

type Cells = readonly (string | number)[];

/** One table of counts. A count that is taken out is there, or the CHECK or the missing row would say so. */
function counter(db: Database, table: string, keys: readonly string[], counts: readonly string[]) {
  const columns = ['tree_id', ...keys];
  const marks = [...columns, ...counts].map(() => '?').join(', ');
  const same = columns.map((key) => `${key} = ?`).join(' AND ');
  const grown = counts.map((count) => `${count} = ${count} + excluded.${count}`).join(', ');
  const shrunk = counts.map((count) => `${count} = ${count} - ?`).join(', ');
  const grow = db.prepare<unknown[]>(
    `INSERT INTO ${table} (${[...columns, ...counts].join(', ')}) VALUES (${marks}) ON CONFLICT DO UPDATE SET ${grown}`,
  );
  const shrink = db.prepare<unknown[]>(`UPDATE ${table} SET ${shrunk} WHERE ${same}`);
  const drop = db.prepare<unknown[]>(`DELETE FROM ${table} WHERE ${same} AND ${counts[0] ?? 'jobs'} = 0`);
  const rows = `SELECT ${[...keys, ...counts].join(', ')} FROM ${table} WHERE tree_id = ?`;
  const all = db.prepare<[string], Cells>(rows).raw();
  const under = db.prepare<[string, string], Cells>(`${rows} AND ${keys[0] ?? ''} = ?`).raw();
  const clear = db.prepare<[string]>(`DELETE FROM ${table} WHERE tree_id = ?`);
  return {
    add(key: Cells, by: readonly number[], sign: Sign): void {
      if (sign === 1) grow.run(...key, ...by);
      else if (shrink.run(...by, ...key).changes !== 1)
        throw new Error(`count-missing: ${table} ${key.join(' ')}`);
      else drop.run(...key);
    },
    all: (treeId: string): readonly Cells[] => all.all(treeId),
    /** The rows of one first key. */
    under: (treeId: string, key: string): readonly Cells[] => under.all(treeId, key),
    clear: (treeId: string): void => void clear.run(treeId),
  };
}

interface Cell {
  readonly of: 'finding' | 'result' | 'remedy';
  readonly key: readonly string[];
  readonly by: readonly number[];
}

/** The counts that a closed job moves, ids that the tree has not passed over. */
function cellsOf(tree: Tree, { confirmed, results, remedies }: Contribution): readonly Cell[] {
  const cells: Cell[] = [];
  if (confirmed !== null && hasFinding(tree, confirmed.finding)) {
    const { symptom, finding } = confirmed;
    if (Object.hasOwn(tree.symptoms, symptom))
      cells.push({ of: 'finding', key: [tree.id, symptom, finding], by: [1] });
    for (const { test, result } of results) {
      if (hasResult(tree, test, result))
        cells.push({ of: 'result', key: [tree.id, test, finding, result], by: [1] });
    }
  }
  for (const { finding, mended } of remedies) {
    if (hasFinding(tree, finding))
      cells.push({ of: 'remedy', key: [tree.id, finding], by: [1, mended ? 1 : 0] });
  }
  return cells;
}

function hasFinding(tree: Tree, finding: string): boolean {
  return finding === UNLISTED || Object.hasOwn(tree.findings, finding);
}

function hasResult(tree: Tree, test: string, result: string): boolean {
  return Object.hasOwn(tree.tests, test) && Object.hasOwn(tree.tests[test]?.results ?? {}, result);
}
