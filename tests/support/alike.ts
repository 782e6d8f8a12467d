/** Where two values differ, numbers by more than so much of their size (of one where they are smaller); null where nowhere. */
export function differenceOf(one: unknown, other: unknown, tolerance: number, at = 'it'): string | null {
  if (typeof one === 'number' && typeof other === 'number') {
    const size = Math.max(1, Math.abs(one), Math.abs(other));
    return Math.abs(one - other) <= tolerance * size ? null : `${at}: ${String(one)} and ${String(other)}`;
  }
  if (!isObject(one) || !isObject(other))
    return one === other ? null : `${at}: ${JSON.stringify(one)} and ${JSON.stringify(other)}`;
  for (const key of new Set([...Object.keys(one), ...Object.keys(other)])) {
    const found = differenceOf(one[key], other[key], tolerance, `${at}.${key}`);
    if (found !== null) return found;
  }
  return null;
}

function isObject(value: unknown): value is Readonly<Record<string, unknown>> {
  return typeof value === 'object' && value !== null;
}
