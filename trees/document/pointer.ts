/** The RFC 6901 JSON pointer of a path of object keys and array indices; the whole document is the empty string. */
export function pointerOf(path: readonly PropertyKey[]): string {
  return path.map((part) => `/${String(part).replaceAll('~', '~0').replaceAll('/', '~1')}`).join('');
}
