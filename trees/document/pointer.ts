/** The RFC 6901 JSON pointer of a path of object keys and array indices; the whole document is the empty string. */
export function pointerOf(path: readonly PropertyKey[]): string {
  return path.map((part) => `/${String(part).replaceAll('~', '~0').replaceAll('/', '~1')}`).join('');
}

/** The path that a pointer was made of; array indices come back as text. */
export function pathOf(pointer: string): readonly string[] {
  const parts = pointer.split('/').slice(1);
  return parts.map((part) => part.replaceAll('~1', '/').replaceAll('~0', '~'));
}
