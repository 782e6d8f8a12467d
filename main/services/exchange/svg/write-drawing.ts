import { SVG_NAMESPACE, type Drawn } from './drawing.ts';

/** A drawing as text, with nothing in it but its elements, attributes and words. */
export function writeDrawing(root: Drawn): string {
  const pieces: string[] = [];
  write(root, ` xmlns="${SVG_NAMESPACE}"`, pieces);
  return `${pieces.join('')}\n`;
}

function write({ name, attributes, within }: Drawn, first: string, pieces: string[]): void {
  pieces.push('<', name, first);
  for (const [attribute, value] of attributes) pieces.push(' ', attribute, '="', quoted(value), '"');
  if (within.length === 0) {
    pieces.push('/>');
    return;
  }
  pieces.push('>');
  for (const part of within) {
    if (typeof part === 'string') pieces.push(escaped(part));
    else write(part, '', pieces);
  }
  pieces.push('</', name, '>');
}

function escaped(words: string): string {
  return words
    .replaceAll('&', '&amp;')
    .replaceAll('<', '&lt;')
    .replaceAll('>', '&gt;')
    .replaceAll('\r', '&#13;');
}

function quoted(value: string): string {
  return escaped(value).replaceAll('"', '&quot;').replaceAll('\t', '&#9;').replaceAll('\n', '&#10;');
}
