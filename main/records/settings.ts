import { z } from 'zod';
import { instant, later } from './clock.ts';
import type { Room } from './database.ts';

/** The shop's settings, each with the value it has until the shop sets another. */
const SETTINGS = {
  /** A backup is made each time this many jobs have been closed. */
  'backup-after-jobs': z.int().min(1).max(10_000).default(20),
};

export type SettingName = keyof typeof SETTINGS;
type Value<N extends SettingName> = z.output<(typeof SETTINGS)[N]>;

export type Settings = ReturnType<typeof openSettings>;

/** Settings are rows that are added; the last one of a name is what holds. */
export function openSettings({ db, ids, clock }: Room) {
  const lastOf = db.prepare<[string], { readonly value: string; readonly at: string }>(
    'SELECT value, at FROM setting WHERE name = ? ORDER BY at DESC, id DESC LIMIT 1',
  );
  const insert = db.prepare<[string, string, string, string]>(
    'INSERT INTO setting (id, name, value, at) VALUES (?, ?, ?, ?)',
  );
  return {
    value<N extends SettingName>(name: N): Value<N> {
      const row = lastOf.get(name);
      return SETTINGS[name].parse(row === undefined ? undefined : JSON.parse(row.value));
    },
    set<N extends SettingName>(name: N, value: Value<N>): void {
      const at = later(clock(), lastOf.get(name)?.at);
      insert.run(ids(at), name, JSON.stringify(SETTINGS[name].parse(value)), instant(at));
    },
  };
}
