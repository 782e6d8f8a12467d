import { at } from '../acts/put.ts';
import { isRecord, type Json } from '../json.ts';
import { testName } from '../telling/names.ts';
import type { MendAt } from './mend-of.ts';

/** Scales the shares that a finding expects of a test so that they sum to 1; null where there is nothing to scale. */
export const scaleShares: MendAt = (document, path) => {
  const value = scaled(at(document, path));
  if (value === null) return null;
  const what = `Scale the shares of ${testName(document, String(path.at(-1)))} to sum to 100 %`;
  return { what, changes: [{ do: 'set', path, value }] };
};

/** Shares scaled to sum to 1, to nine digits; null where they sum to nothing. */
export function scaled(shares: Json | undefined): Readonly<Record<string, number>> | null {
  if (!isRecord(shares)) return null;
  const each = Object.entries(shares).map(([result, share]) => [result, Number(share)] as const);
  const total = each.reduce((sum, [, share]) => sum + share, 0);
  if (!(total > 0)) return null;
  return Object.fromEntries(each.map(([result, share]) => [result, Number((share / total).toPrecision(9))]));
}
