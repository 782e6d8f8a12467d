import { DOCUMENT_LIMITS } from '../document/index.ts';

/** Entries of one list or record: as many as an edit may have changes, which is more than a tree document may have anywhere. */
const MOST_ENTRIES = 20_000;

/**
 * The values that a value of any kind has in it altogether, itself among them; Infinity where it is not JSON, or is nested deeper
 * or is larger than anything that is edited in a tree document. What is too large is not walked to its end.
 */
export function jsonValues(value: unknown): number {
  return valuesWith(value, 0, 0);
}

/** The values seen so far and those in this one. It goes no deeper than may be, so it can call itself. */
function valuesWith(value: unknown, level: number, before: number): number {
  let seen = before + 1;
  if (typeof value !== 'object' || value === null) return isPlain(value) ? seen : Infinity;
  if (level >= DOCUMENT_LIMITS.levels || !isHolder(value)) return Infinity;
  let entries = 0;
  for (const key in value) {
    entries += 1;
    if (entries > MOST_ENTRIES || seen > DOCUMENT_LIMITS.values) return Infinity;
    seen = valuesWith(value[key], level + 1, seen);
  }
  return seen;
}

function isPlain(value: unknown): boolean {
  return value === null || typeof value === 'string' || typeof value === 'boolean' || Number.isFinite(value);
}

/** As `JSON.parse` makes them; what else a line can carry (dates, maps, big numbers) is in no document. */
function isHolder(value: object): value is Readonly<Record<string, unknown>> {
  const prototype: unknown = Object.getPrototypeOf(value);
  return Array.isArray(value) || prototype === Object.prototype || prototype === null;
}
