import type { Technician } from '../contract/index.ts';
import { instant } from './clock.ts';
import type { Room } from './database.ts';

interface Row {
  readonly id: string;
  readonly name: string;
  readonly retired: 0 | 1;
}

const COLUMNS = `SELECT technician.id, name, technician_retired.at IS NOT NULL AS retired
  FROM technician LEFT JOIN technician_retired ON technician_id = technician.id`;

export type Technicians = ReturnType<typeof openTechnicians>;

/** The shop's technicians, retired ones included. Retiring is a row of its own; nobody is taken off the records. */
export function openTechnicians({ db, ids, clock }: Room) {
  const all = db.prepare<[], Row>(`${COLUMNS} ORDER BY added_at, technician.id`);
  const byId = db.prepare<[string], Row>(`${COLUMNS} WHERE technician.id = ?`);
  const workingNamed = db.prepare<[string], Row>(
    `${COLUMNS} WHERE name = ? COLLATE NOCASE AND technician_retired.at IS NULL`,
  );
  const insert = db.prepare<[string, string, string]>(
    'INSERT INTO technician (id, name, added_at) VALUES (?, ?, ?)',
  );
  const insertRetired = db.prepare<[string, string]>(
    'INSERT INTO technician_retired (technician_id, at) VALUES (?, ?) ON CONFLICT DO NOTHING',
  );
  const find = (id: string) => record(byId.get(id));

  return {
    list: (): readonly Technician[] => all.all().map(present),
    find,
    /** Null where a technician of that name already works here. */
    add: db.transaction((name: string, at: number = clock()): Technician | null => {
      if (workingNamed.get(name) !== undefined) return null;
      const id = ids(at);
      insert.run(id, name, instant(at));
      return { id, name, retired: false };
    }).immediate,
    /** The technician as retired; null where there is none of that id. */
    retire: db.transaction((id: string): Technician | null => {
      if (find(id) === null) return null;
      insertRetired.run(id, instant(clock()));
      return find(id);
    }).immediate,
  };
}

function record(row: Row | undefined): Technician | null {
  return row === undefined ? null : present(row);
}

function present({ id, name, retired }: Row): Technician {
  return { id, name, retired: retired === 1 };
}
