import { refuse, taken, type Refusal, type Taken } from '../refusal.ts';

/** An entry of a zip file's directory, and where its packed bytes are. */
export interface ZipEntry {
  readonly name: string;
  readonly method: number;
  readonly checksum: number;
  readonly packed: number;
  /** Length that the directory says the entry has unpacked; whether it is true shows when it is unpacked. */
  readonly unpacked: number;
  readonly start: number;
}

const ENTRIES_AT_MOST = 200;

/** Signatures and fixed lengths of a zip file's parts (ISO/IEC 21320-1; APPNOTE 4.3). */
const LOCAL = { signature: 0x04034b50, length: 30 };
const CENTRAL = { signature: 0x02014b50, length: 46 };
const END = { signature: 0x06054b50, length: 22 };
const LONGEST_COMMENT = 0xffff;
const ENCRYPTED = 0x2041;
const UNIX_TYPE = 0xf000;
const UNIX_FILE = 0x8000;

/**
 * Reads the directory of a zip file strictly: one directory, at the very end, every entry of it a plain file where it says it is,
 * none over another. Names are given as they stand.
 */
export function readDirectory(bytes: Uint8Array): Taken<readonly ZipEntry[]> {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const end = endOf(view);
  if (end === null) return damaged('it has no directory at its end');
  const count = view.getUint16(end + 10, true);
  const size = view.getUint32(end + 12, true);
  const from = view.getUint32(end + 16, true);
  if (view.getUint32(end + 4, true) !== 0 || view.getUint16(end + 8, true) !== count)
    return damaged('it is one part of several');
  if (count > ENTRIES_AT_MOST)
    return refuse(
      `The zip holds ${String(count)} files; at most ${String(ENTRIES_AT_MOST)} are taken.`,
      ONLY_A_TREE,
    );
  if (from + size !== end) return damaged('its directory is not where it should be');
  const entries: ZipEntry[] = [];
  let at = from;
  for (let index = 0; index < count; index += 1) {
    if (at + CENTRAL.length > end || view.getUint32(at, true) !== CENTRAL.signature)
      return damaged('its directory is broken');
    const entry = entryAt(view, at, from);
    if (!entry.ok) return entry;
    entries.push(entry.value);
    at += CENTRAL.length + tailOf(view, at + 28);
  }
  if (at !== end) return damaged('its directory is longer than it says');
  return overlap(entries) ? damaged('its files lie over one another') : taken(entries);
}

export const ONLY_A_TREE = 'Pack one .tree.json and its pictures, and nothing else, and take that.';

/** The end record, whose comment must reach to the end of the file exactly. */
function endOf(view: DataView): number | null {
  const last = view.byteLength - END.length;
  for (let at = last; at >= 0 && at >= last - LONGEST_COMMENT; at -= 1) {
    if (view.getUint32(at, true) === END.signature && view.getUint16(at + 20, true) === last - at) return at;
  }
  return null;
}

function tailOf(view: DataView, at: number): number {
  return view.getUint16(at, true) + view.getUint16(at + 2, true) + view.getUint16(at + 4, true);
}

function entryAt(view: DataView, at: number, directory: number): Taken<ZipEntry> {
  const flags = view.getUint16(at + 8, true);
  const entry = {
    method: view.getUint16(at + 10, true),
    checksum: view.getUint32(at + 16, true),
    packed: view.getUint32(at + 20, true),
    unpacked: view.getUint32(at + 24, true),
  };
  const length = view.getUint16(at + 28, true);
  const local = view.getUint32(at + 42, true);
  if (at + CENTRAL.length + tailOf(view, at + 28) > view.byteLength)
    return damaged('its directory is broken');
  const name = nameAt(view, at + CENTRAL.length, length);
  if ((flags & ENCRYPTED) !== 0) return refuse('The zip is locked with a password.', 'Pack it without one.');
  if (!isPlainFile(view.getUint32(at + 38, true) >>> 16))
    return refuse('The zip holds a link or another thing that is no file.', ONLY_A_TREE);
  if (name === null) return refuse('A file in the zip has a name that cannot be read.', ONLY_A_TREE);
  if (local + LOCAL.length > directory || view.getUint32(local, true) !== LOCAL.signature)
    return damaged('a file in it is not where its directory says');
  const start = local + LOCAL.length + view.getUint16(local + 26, true) + view.getUint16(local + 28, true);
  const same = view.getUint16(local + 8, true) === entry.method;
  if (
    !same ||
    start > directory ||
    nameAt(view, local + LOCAL.length, view.getUint16(local + 26, true)) !== name
  )
    return damaged('what it says of a file in two places differs');
  if (start + entry.packed > directory) return damaged('a file in it is cut short');
  return taken({ ...entry, name, start });
}

/** The upper half of the attributes is a Unix mode where a Unix machine has packed the file, else nothing. */
function isPlainFile(mode: number): boolean {
  const type = mode & UNIX_TYPE;
  return type === 0 || type === UNIX_FILE || isFolder(type);
}

/** Folders are told by their name. */
function isFolder(type: number): boolean {
  return type === 0x4000;
}

function nameAt(view: DataView, at: number, length: number): string | null {
  try {
    const bytes = new Uint8Array(view.buffer, view.byteOffset + at, length);
    const name = new TextDecoder('utf-8', { fatal: true }).decode(bytes);
    return name === '' || /\p{Control}/u.test(name) ? null : name;
  } catch {
    return null;
  }
}

function overlap(entries: readonly ZipEntry[]): boolean {
  const inOrder = [...entries].sort((a, b) => a.start - b.start);
  return inOrder.some(({ start, packed }, index) => start + packed > (inOrder[index + 1]?.start ?? Infinity));
}

/** The refusal of a zip that breaks its format’s rules; `what` ends the sentence. */
export function damaged(what: string): Refusal {
  return refuse(`The zip is damaged: ${what}.`, 'Take another copy of it, or have it exported again.');
}
