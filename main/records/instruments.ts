import type { ShopInstrument } from '../contract/index.ts';
import { instant } from './clock.ts';
import type { Room } from './database.ts';

type Row = Omit<ShopInstrument, 'retired'> & { readonly retired: 0 | 1 };
type NewInstrument = Omit<ShopInstrument, 'id' | 'retired'>;

const COLUMNS = `SELECT instrument.id, name, measures, percent, constant, instrument_retired.at IS NOT NULL AS retired
  FROM instrument LEFT JOIN instrument_retired ON instrument_id = instrument.id`;

export type Instruments = ReturnType<typeof openInstruments>;

/** The shop's instruments, retired ones included. Retiring is a row of its own. */
export function openInstruments({ db, ids, clock }: Room) {
  const all = db.prepare<[], Row>(`${COLUMNS} ORDER BY added_at, instrument.id`);
  const byId = db.prepare<[string], Row>(`${COLUMNS} WHERE instrument.id = ?`);
  const inUseNamed = db.prepare<[string, string], Row>(
    `${COLUMNS} WHERE name = ? COLLATE NOCASE AND measures = ? AND instrument_retired.at IS NULL`,
  );
  const insert = db.prepare<[string, string, string, number, number, string]>(
    'INSERT INTO instrument (id, name, measures, percent, constant, added_at) VALUES (?, ?, ?, ?, ?, ?)',
  );
  const insertRetired = db.prepare<[string, string]>(
    'INSERT INTO instrument_retired (instrument_id, at) VALUES (?, ?) ON CONFLICT DO NOTHING',
  );
  const find = (id: string): ShopInstrument | null => {
    const row = byId.get(id);
    return row === undefined ? null : present(row);
  };

  return {
    list: (): readonly ShopInstrument[] => all.all().map(present),
    find,
    /** Null where an instrument of that name that measures the same is already in use. */
    add: db.transaction((instrument: NewInstrument): ShopInstrument | null => {
      const { name, measures, percent, constant } = instrument;
      if (inUseNamed.get(name, measures) !== undefined) return null;
      const at = clock();
      const id = ids(at);
      insert.run(id, name, measures, percent, constant, instant(at));
      return { id, name, measures, percent, constant, retired: false };
    }).immediate,
    /** The instrument as retired; null where there is none of that id. */
    retire: db.transaction((id: string): ShopInstrument | null => {
      if (find(id) === null) return null;
      insertRetired.run(id, instant(clock()));
      return find(id);
    }).immediate,
  };
}

function present(row: Row): ShopInstrument {
  return { ...row, retired: row.retired === 1 };
}
