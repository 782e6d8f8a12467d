/** Sets of ids that are replaced and never changed. */
export type Ids = ReadonlySet<string>;

export const NO_IDS: Ids = new Set();

/** The set of those that are there. */
export function idsOf(ids: Iterable<string | undefined>): Ids {
  return new Set([...ids].filter((id) => id !== undefined));
}

/** The ids with this one added, or taken out if it was among them. */
export function toggled(ids: Ids, id: string): Ids {
  const next = new Set(ids);
  if (!next.delete(id)) next.add(id);
  return next;
}

/** So many ids come or go in one step at most, so that none takes longer than a frame. */
const COMING = 3;
const GOING = 9;

/** One step from the ids there are to those wanted. `urgent` ones come at once; the same set comes back once all is as wanted. */
export function nearer(ids: Ids, wanted: Ids, urgent: readonly string[]): Ids {
  const gone = [...ids].filter((id) => !wanted.has(id)).slice(0, GOING);
  const missing = [...wanted].filter((id) => !ids.has(id));
  if (gone.length === 0 && missing.length === 0) return ids;
  const now = urgent.filter((id) => wanted.has(id) && !ids.has(id));
  const next = new Set(ids);
  for (const id of gone) next.delete(id);
  for (const id of [...now, ...missing.slice(0, COMING)]) next.add(id);
  return next;
}
