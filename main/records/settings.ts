import { z } from 'zod';
import { hourlyRateSchema } from '../contract/index.ts';
import { instant, later } from './clock.ts';
import type { Room } from './database.ts';

interface Values {
  /** A backup is made each time this many jobs have been closed. */
  readonly 'backup-after-jobs': number;
  /** What an hour of work costs; null where parts' prices are not to count as minutes. */
  readonly 'hourly-rate': number | null;
  /** What a passphrase to publish is checked against; null where anybody may publish. */
  readonly 'publishing-lock': PublishingLock | null;
}

/** A passphrase's scrypt hash with its salt, both base64url; the passphrase itself is nowhere. */
export interface PublishingLock {
  readonly salt: string;
  readonly hash: string;
}

const publishingLockSchema = z.strictObject({ salt: z.base64url(), hash: z.base64url() });

export type SettingName = keyof Values;

/** The shop's settings, each with the value it has until the shop sets another. */
const SETTINGS: { readonly [N in SettingName]: z.ZodType<Values[N]> } = {
  'backup-after-jobs': z.int().min(1).max(10_000).default(20),
  'hourly-rate': hourlyRateSchema.default(null),
  'publishing-lock': publishingLockSchema.nullable().default(null),
};

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
    value<N extends SettingName>(name: N): Values[N] {
      const row = lastOf.get(name);
      return SETTINGS[name].parse(row === undefined ? undefined : JSON.parse(row.value));
    },
    set<N extends SettingName>(name: N, value: Values[N]): void {
      const at = later(clock(), lastOf.get(name)?.at);
      insert.run(ids(at), name, JSON.stringify(SETTINGS[name].parse(value)), instant(at));
    },
  };
}
