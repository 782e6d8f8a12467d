/** Something that was made outside the component that first asked for it, so that what it derives outlives that component. */
export interface Rooted<T> {
  readonly value: T;
  readonly stop: () => void;
}

/** Makes a value whose reactivity lasts until `stop` is called. */
export function rooted<T>(make: () => T): Rooted<T> {
  const made: T[] = [];
  const stop = $effect.root(() => void made.push(make()));
  const [value] = made;
  if (value === undefined) throw new Error('not-made: the root was left before it ran');
  return { value, stop };
}
