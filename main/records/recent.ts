/** What was used lately, by key. */
export interface Recent<K, V> {
  get(key: K): V | undefined;
  set(key: K, value: V): void;
  delete(key: K): void;
  clear(): void;
}

/** Keeps the `most` entries that were used last; the longest unused gives way. */
export function recent<K, V>(most: number): Recent<K, V> {
  const entries = new Map<K, V>();
  const set = (key: K, value: V): void => {
    entries.delete(key);
    entries.set(key, value);
    const [oldest] = entries.keys();
    if (entries.size > most && oldest !== undefined) entries.delete(oldest);
  };
  return {
    get(key) {
      const value = entries.get(key);
      if (value !== undefined) set(key, value);
      return value;
    },
    set,
    delete: (key) => void entries.delete(key),
    clear: () => entries.clear(),
  };
}
