/**
 * What a record keyed by ids holds of its own under `id`, if anything. `constructor` is a legal id, and counts, evidence
 * and bench states have ordinary prototypes, whose entries are nobody's.
 */
export function own<T>(record: Readonly<Record<string, T>>, id: string): T | undefined {
  return Object.hasOwn(record, id) ? record[id] : undefined;
}
