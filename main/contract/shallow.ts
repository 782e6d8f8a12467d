/** Levels that a recorded value may be nested: a tree document has not half as many. */
const MOST_LEVELS = 64;
/** Values that may be in it altogether: a tree document of the largest size has fewer. */
const MOST_VALUES = 2_000_000;

/** Whether a value can be walked: not nested deeper, nor larger, than anything that is in a tree document. */
export function isShallow(value: unknown): boolean {
  const open: { readonly value: unknown; readonly level: number }[] = [{ value, level: 0 }];
  let seen = 0;
  for (let next = open.pop(); next !== undefined; next = open.pop()) {
    seen += 1;
    if (next.level > MOST_LEVELS || seen > MOST_VALUES) return false;
    if (typeof next.value !== 'object' || next.value === null) continue;
    for (const inner of Object.values(next.value)) open.push({ value: inner, level: next.level + 1 });
  }
  return true;
}
