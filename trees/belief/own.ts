/**
 * What a record keyed by ids holds of its own under `key`. History comes from outside with ordinary prototypes, and
 * `constructor` is a legal id.
 */
export function own<V>(record: Readonly<Record<string, V>>, key: string): V | undefined {
  return Object.hasOwn(record, key) ? record[key] : undefined;
}
