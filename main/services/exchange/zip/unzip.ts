import { crc32, inflateRawSync } from 'node:zlib';
import { refuse, taken, type Refusal, type Taken } from '../refusal.ts';
import { damaged, ONLY_A_TREE, readDirectory, type ZipEntry } from './directory.ts';

/** Largest zip taken, in bytes, and the most it may hold unpacked. */
export const LARGEST_ZIP_BYTES = 8 * 1024 * 1024;
export const UNPACKED_AT_MOST_BYTES = 24 * 1024 * 1024;

/** Text packs to a twentieth; what packs far better was made to. Small files may. */
const RATIO_AT_MOST = 100;
const SMALL_BYTES = 64 * 1024;

const STORED = 0;
const DEFLATED = 8;

export interface UnzippedFile {
  readonly name: string;
  readonly bytes: Uint8Array;
}

/** Whether bytes begin as a zip does, be it an empty one. */
export function isZip(bytes: Uint8Array): boolean {
  return bytes[0] === 0x50 && bytes[1] === 0x4b && ((bytes[2] === 3 && bytes[3] === 4) || bytes[2] === 5);
}

/**
 * The files of a zip, each of them plainly named and beside the others. Refused whole where anything about it is amiss: size,
 * number, names, places, sums. Never unpacks more than 24 MiB, nor more of a file than the directory says it has.
 */
export function unzip(bytes: Uint8Array): Taken<readonly UnzippedFile[]> {
  if (bytes.length > LARGEST_ZIP_BYTES)
    return refuse('The zip has more than 8 MiB.', 'Make its pictures smaller and pack it again.');
  const directory = readDirectory(bytes);
  if (!directory.ok) return directory;
  const refusal = sizesRefused(directory.value) ?? namesRefused(directory.value);
  if (refusal !== null) return refusal;
  const files: UnzippedFile[] = [];
  for (const entry of directory.value) {
    const unpacked = unpack(bytes, entry);
    if (!unpacked.ok) return unpacked;
    files.push({ name: entry.name, bytes: unpacked.value });
  }
  return taken(files);
}

function sizesRefused(entries: readonly ZipEntry[]): Refusal | null {
  const total = entries.reduce((sum, { unpacked }) => sum + unpacked, 0);
  if (total > UNPACKED_AT_MOST_BYTES)
    return refuse('The zip holds more than 24 MiB.', 'Make its pictures smaller and pack it again.');
  const swollen = entries.find(
    ({ packed, unpacked }) => unpacked > SMALL_BYTES && unpacked > packed * RATIO_AT_MOST,
  );
  return swollen === undefined
    ? null
    : refuse('A file in the zip unpacks to more than a hundred times its size.', ONLY_A_TREE);
}

function namesRefused(entries: readonly ZipEntry[]): Refusal | null {
  const seen = new Set<string>();
  for (const { name } of entries) {
    if (/[/\\:]/.test(name) || name === '.' || name === '..')
      return refuse('The zip has folders in it.', 'Pack the files themselves, not the folder they are in.');
    const same = name.toLowerCase();
    if (seen.has(same)) return refuse('The zip holds two files of one name.', ONLY_A_TREE);
    seen.add(same);
  }
  return null;
}

/** zlib is told where to stop, so that a file that is longer than it says costs no more than it says. */
function unpack(
  bytes: Uint8Array,
  { method, checksum, packed, unpacked, start }: ZipEntry,
): Taken<Uint8Array> {
  const data = bytes.subarray(start, start + packed);
  if (method !== STORED && method !== DEFLATED)
    return refuse('The zip is packed in a way that is not read here.', 'Pack it as a plain zip.');
  const whole = method === STORED ? data : inflated(data, unpacked);
  if (whole === null || whole.length !== unpacked) return damaged('a file in it is not as long as it says');
  return crc32(whole) === checksum ? taken(whole) : damaged('the checksum of a file in it is wrong');
}

function inflated(data: Uint8Array, length: number): Uint8Array | null {
  try {
    const { buffer, byteOffset, byteLength } = inflateRawSync(data, { maxOutputLength: Math.max(length, 1) });
    return new Uint8Array(buffer, byteOffset, byteLength);
  } catch {
    return null;
  }
}
