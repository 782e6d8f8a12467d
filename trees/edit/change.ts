import { z } from 'zod';
import { jsonValues } from './json-values.ts';
import type { Json } from './json.ts';

const MOST_KEYS = 16;

const keySchema = z.union([z.string().max(200), z.int().min(0).max(1_000_000)]);
const pathSchema = z.array(keySchema).min(1).max(MOST_KEYS);
const atSchema = z.int().min(0).max(1_000_000);
/** Asked of a tree's worth of values at a time, so they are walked and not parsed one by one. */
const valueSchema = z.custom<Json>((value) => jsonValues(value) < Infinity, 'a JSON value');

/**
 * One change of a document, itself JSON. `path` is the keys and indices that lead to an entry from the document's root.
 *
 * - `set`: another value in the entry's place; in a record, an entry that is not there yet is added last.
 * - `insert`: an entry that is not there yet, at position `at` of its record or list. In a list the path's last key is `at` too.
 * - `remove`: the entry goes.
 * - `move`: the entry comes to stand at position `at` of its record or list, the others closing up.
 */
export const changeSchema = z.discriminatedUnion('do', [
  z.strictObject({ do: z.literal('set'), path: pathSchema, value: valueSchema }),
  z.strictObject({ do: z.literal('insert'), path: pathSchema, at: atSchema, value: valueSchema }),
  z.strictObject({ do: z.literal('remove'), path: pathSchema }),
  z.strictObject({ do: z.literal('move'), path: pathSchema, at: atSchema }),
]);

export type Key = string | number;
export type Path = readonly Key[];

export type Change =
  | { readonly do: 'set'; readonly path: Path; readonly value: Json }
  | { readonly do: 'insert'; readonly path: Path; readonly at: number; readonly value: Json }
  | { readonly do: 'remove'; readonly path: Path }
  | { readonly do: 'move'; readonly path: Path; readonly at: number };
