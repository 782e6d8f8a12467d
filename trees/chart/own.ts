/** The entry of that id, if the record has one of its own: ids such as `constructor` find nothing inherited. */
export function own<T>(record: Readonly<Record<string, T>>, id: string): T | undefined {
  return Object.hasOwn(record, id) ? record[id] : undefined;
}
