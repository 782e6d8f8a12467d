/**
 * What `make` gives; or gave before for this part by this rule, where all that it rests on is the same, each by identity. What
 * is in the part itself need not be named, as a part that changes becomes another object.
 */
export type Recall = <Value>(
  rule: string,
  part: object,
  restsOn: readonly unknown[],
  make: () => Value,
) => Value;

interface Remembered {
  readonly restsOn: readonly unknown[];
  readonly value: unknown;
}

/** An empty memory. It keeps the last value of each part by each rule, for as long as there is the part. */
export function openMemory(): Recall {
  const rules = new Map<string, WeakMap<object, Remembered>>();
  return <Value>(rule: string, part: object, restsOn: readonly unknown[], make: () => Value): Value => {
    const parts = rules.get(rule) ?? new WeakMap<object, Remembered>();
    rules.set(rule, parts);
    const known = parts.get(part);
    if (known !== undefined && isSame(known.restsOn, restsOn)) return known.value as Value;
    const value = make();
    parts.set(part, { restsOn, value });
    return value;
  };
}

function isSame(one: readonly unknown[], other: readonly unknown[]): boolean {
  for (let at = 0; at < other.length; at += 1) if (one[at] !== other[at]) return false;
  return one.length === other.length;
}
