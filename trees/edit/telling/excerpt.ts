const LONG = 90;
const AROUND = 30;

/** Two long texts cut down to where they differ, with some words around; short ones as they are. */
export function excerpts(one: string, other: string): readonly [string, string] {
  if (one.length <= LONG && other.length <= LONG) return [one, other];
  let head = 0;
  while (head < one.length && one[head] === other[head]) head += 1;
  let tail = 0;
  while (tail < Math.min(one.length, other.length) - head && one.at(-1 - tail) === other.at(-1 - tail))
    tail += 1;
  const from = wordStart(one, Math.max(0, head - AROUND));
  const behind = Math.max(0, tail - AROUND);
  return [cut(one, from, behind), cut(other, from, behind)];
}

function wordStart(text: string, at: number): number {
  const space = text.lastIndexOf(' ', at);
  return at === 0 || space < 0 ? 0 : space + 1;
}

function cut(text: string, from: number, behind: number): string {
  const end = text.length - behind;
  const space = behind === 0 ? -1 : text.indexOf(' ', end);
  const to = space < 0 ? text.length : space;
  return `${from > 0 ? '…' : ''}${text.slice(from, to)}${to < text.length ? '…' : ''}`;
}
