import type { FactNames, JobFact, Way } from '../../trees/review/index.ts';
import type { Database } from './database.ts';

type Kind = 'symptom' | 'finding' | 'board' | 'technician';

interface NameRow {
  readonly kind: Kind;
  readonly code: number;
  readonly tree: string;
  readonly name: string;
}

interface WayRow {
  readonly id: number;
  readonly tree: string;
  readonly symptom: string;
  readonly answers: string;
}

type Pairs = readonly (readonly [test: string, result: string])[];

export type FactCodes = ReturnType<typeof openFactCodes>;

/** The codes that stand in the facts for names and ways; one that is not there yet is added. The callers hold the transaction. */
export function openFactCodes(db: Database) {
  const codeOf = db
    .prepare<[Kind, string, string], number>(
      'SELECT code FROM fact_name WHERE kind = ? AND tree_id = ? AND name = ?',
    )
    .pluck();
  // The CHECK on `code` says where a column's 65,535 names are used up.
  const addName = db
    .prepare<[{ readonly kind: Kind; readonly tree: string; readonly name: string }], number>(
      `INSERT INTO fact_name (kind, code, tree_id, name)
       SELECT @kind, coalesce(max(code), 0) + 1, @tree, @name FROM fact_name WHERE kind = @kind RETURNING code`,
    )
    .pluck();
  const idOf = db
    .prepare<[string, string, string], number>(
      'SELECT id FROM way WHERE tree_id = ? AND symptom = ? AND answers = ?',
    )
    .pluck();
  const addWay = db
    .prepare<[string, string, string], number>(
      'INSERT INTO way (tree_id, symptom, answers) VALUES (?, ?, ?) RETURNING id',
    )
    .pluck();
  const code = (kind: Kind, tree: string, name: string): number =>
    codeOf.get(kind, tree, name) ?? addName.get({ kind, tree, name }) ?? 0;
  const way = (tree: string, symptom: string, answers: JobFact['answers']): number => {
    if (answers.length === 0) return 0;
    const text = JSON.stringify(answers.map(({ test, result }) => [test, result]));
    return idOf.get(tree, symptom, text) ?? addWay.get(tree, symptom, text) ?? 0;
  };
  return {
    /** The code of a way, 0 for one without any result. */
    way,
    of: ({ tree, symptom, finding, tried, board, technician, answers }: JobFact) => ({
      symptom: code('symptom', tree, symptom),
      finding: finding === null ? 0 : code('finding', tree, finding),
      tried: tried === null ? 0 : code('finding', tree, tried),
      board: code('board', tree, board),
      technician: code('technician', '', technician),
      way: way(tree, symptom, answers),
    }),
  };
}

/** Reads names and ways, those added since the last reading only. A reader holds what it has read for one making of the facts. */
export function openNameReader(db: Database) {
  const namesAfter = db.prepare<[Kind, number], NameRow>(
    'SELECT kind, code, tree_id AS tree, name FROM fact_name WHERE kind = ? AND code > ? ORDER BY code',
  );
  const waysAfter = db.prepare<[number], WayRow>(
    'SELECT id, tree_id AS tree, symptom, answers FROM way WHERE id > ? ORDER BY id',
  );
  // Many ways have the same few hundred answers; one object for each keeps a million jobs' ways small.
  const answers = new Map<string, Way['answers'][number]>();
  const same = (test: string, result: string): Way['answers'][number] => {
    const key = `${test} ${result}`;
    const answer = answers.get(key) ?? { test, result };
    answers.set(key, answer);
    return answer;
  };
  /** `known` with what was added, the same where nothing was; codes have no gaps. */
  const grown = <T>(kind: Kind, known: readonly T[], read: (row: NameRow) => T): readonly T[] => {
    const added = namesAfter.all(kind, known.length - 1);
    return added.length === 0 ? known : [...known, ...added.map(read)];
  };
  return {
    names(known: FactNames): FactNames {
      const { symptoms, findings, boards, technicians } = known;
      return {
        symptoms: grown('symptom', symptoms, ({ tree, name }) => ({ tree, symptom: name })),
        findings: grown('finding', findings, ({ tree, name }) => ({ tree, finding: name })),
        boards: grown('board', boards, ({ tree, name }) => ({ tree, board: name })),
        technicians: grown('technician', technicians, ({ name }) => name),
      };
    },
    ways(known: readonly (Way | undefined)[]): readonly (Way | undefined)[] {
      // One by one: the rows of a million jobs' ways would take more than the ways.
      const added: Way[] = [];
      for (const row of waysAfter.iterate(known.length - 1)) added.push(wayOf(row, same));
      return added.length === 0 ? known : [...known, ...added];
    },
  };
}

/** No names yet; entry 0 of each list is unused. */
export const NO_NAMES: FactNames = {
  symptoms: [{ tree: '', symptom: '' }],
  findings: [{ tree: '', finding: '' }],
  boards: [{ tree: '', board: '' }],
  technicians: [''],
};

function wayOf(
  { tree, symptom, answers }: WayRow,
  same: (test: string, result: string) => Way['answers'][number],
): Way {
  const pairs = JSON.parse(answers) as Pairs;
  return { tree, symptom, answers: pairs.map(([test, result]) => same(test, result)) };
}
