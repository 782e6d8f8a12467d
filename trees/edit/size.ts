import { isList, isRecord, type Json } from './json.ts';

/** How large a value is. */
export interface Size {
  /** Bytes of UTF-8 that it takes in a document's text, with its indentation; no fewer than it really takes. */
  readonly bytes: number;
  /** Values in it altogether, itself among them. */
  readonly values: number;
}

/** A value's size, and how wide and deep it is. */
export interface Extent extends Size {
  /** The most entries that a record or list in it has. */
  readonly entries: number;
  /** Levels, it and those above it among them. */
  readonly levels: number;
}

/** The extent of what stands at a path of so many keys, the last of them included; `undefined` is nothing at all. */
export function extentOf(part: Json | undefined, path: readonly (string | number)[]): Extent {
  const sum = { bytes: 0, values: 0, entries: 0, levels: 0 };
  if (part === undefined) return sum;
  const open: { readonly value: Json; readonly level: number }[] = [{ value: part, level: path.length }];
  sum.bytes += placeBytes(path.length) + keyBytes(path.at(-1));
  for (let next = open.pop(); next !== undefined; next = open.pop()) {
    const { value, level } = next;
    sum.values += 1;
    sum.levels = Math.max(sum.levels, level + 1);
    if (isList(value)) {
      for (const item of value) open.push({ value: item, level: level + 1 });
      sum.bytes += BRACKETS + INDENT * level + value.length * placeBytes(level + 1);
      sum.entries = Math.max(sum.entries, value.length);
    } else if (isRecord(value)) {
      const entries = Object.entries(value);
      for (const [key, inner] of entries) {
        open.push({ value: inner, level: level + 1 });
        sum.bytes += placeBytes(level + 1) + keyBytes(key);
      }
      sum.bytes += BRACKETS + INDENT * level;
      sum.entries = Math.max(sum.entries, entries.length);
    } else {
      sum.bytes += typeof value === 'string' ? textBytes(value) : String(value).length;
    }
  }
  return sum;
}

const INDENT = 2;
const BRACKETS = 2;

/** An entry's line break, comma and indentation. */
function placeBytes(level: number): number {
  return level === 0 ? 1 : 2 + INDENT * level;
}

function keyBytes(key: string | number | undefined): number {
  return typeof key === 'string' ? textBytes(key) + 2 : 0;
}

/** Of a text in its quotes, as RFC 8259 has it in UTF-8. */
function textBytes(text: string): number {
  let bytes = 2;
  for (let at = 0; at < text.length; at += 1) {
    const code = text.charCodeAt(at);
    if (code < 0x20) bytes += 6;
    else if (code === 0x22 || code === 0x5c) bytes += 2;
    else if (code < 0x80) bytes += 1;
    else if (code < 0x800) bytes += 2;
    else bytes += 3;
  }
  return bytes;
}
