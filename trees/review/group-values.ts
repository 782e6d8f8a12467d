/** Values laid together by what they belong to. */
export interface GroupedValues {
  /** All values, group after group. */
  readonly values: Uint32Array;
  /** The values of one group, in no order that means anything; shares its memory with `values`. */
  readonly of: (group: number) => Uint32Array;
}

/** Lays the first `count` values together by their groups' numbers, 0 .. `groups` - 1 (a counting sort). */
export function groupValues(
  values: Uint32Array,
  group: Uint32Array,
  count: number,
  groups: number,
): GroupedValues {
  const ends = new Uint32Array(groups + 1);
  for (let at = 0; at < count; at += 1) {
    const next = (group[at] ?? 0) + 1;
    ends[next] = (ends[next] ?? 0) + 1;
  }
  for (let next = 1; next <= groups; next += 1) ends[next] = (ends[next] ?? 0) + (ends[next - 1] ?? 0);
  const starts = ends.slice();
  const laid = new Uint32Array(count);
  for (let at = 0; at < count; at += 1) {
    const number = group[at] ?? 0;
    const place = starts[number] ?? 0;
    laid[place] = values[at] ?? 0;
    starts[number] = place + 1;
  }
  return { values: laid, of: (number) => laid.subarray(ends[number] ?? 0, ends[number + 1] ?? 0) };
}
