/** Are two things the same in all that they hold? They hold texts, figures, and lists of such. */
export function alike<T extends object>(one: T, other: T): boolean {
  const keys = Object.keys(one) as (keyof T)[];
  return (
    keys.length === Object.keys(other).length &&
    keys.every((key) => Object.hasOwn(other, key) && valuesAlike(one[key], other[key]))
  );
}

function valuesAlike(one: unknown, other: unknown): boolean {
  if (one === other) return true;
  return isHolder(one) && isHolder(other) && alike(one, other);
}

function isHolder(value: unknown): value is object {
  return typeof value === 'object' && value !== null;
}

/** The former entry wherever the new one is just like it, and the former list where that is so of all. */
export function keepAlike<T extends object>(
  former: readonly T[],
  now: readonly T[],
  formerOf: (one: T, place: number) => T | undefined = (_, place) => former[place],
): readonly T[] {
  const kept = now.map((one, place) => {
    const known = formerOf(one, place);
    return known !== undefined && (known === one || alike(known, one)) ? known : one;
  });
  return sameEntries(former, kept) ? former : kept;
}

/** Have two lists the very same entries in the same order? */
export function sameEntries<T>(one: readonly T[], other: readonly T[]): boolean {
  return one.length === other.length && one.every((entry, place) => entry === other[place]);
}

/** Gives the value of before for as long as what comes is the same, so that nothing that hangs on it is done again. */
export function keepLast<T>(same: (one: T, other: T) => boolean): (now: T) => T {
  let last: { readonly value: T } | undefined;
  return (now) => {
    if (last === undefined || !same(last.value, now)) last = { value: now };
    return last.value;
  };
}
