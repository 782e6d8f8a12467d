import { crc32 } from 'node:zlib';
import { refuse, taken, type Refusal, type Taken } from './refusal.ts';
import type { PictureSize } from './picture-size.ts';

const SIGNATURE = [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a] as const;
const CHUNKS_AT_MOST = 10_000;
/** Length, type and checksum around a chunk's data. */
const CHUNK_FRAME = 12;

/** Whether bytes begin as a PNG does. */
export function isPng(bytes: Uint8Array): boolean {
  return SIGNATURE.every((byte, at) => bytes[at] === byte);
}

/**
 * The size that a PNG's header states, in pixels. Its chunks are walked (W3C PNG, section 5): header first, each chunk whole and
 * of the right checksum, an end and nothing after it. Pixels are not unpacked.
 */
export function readPng(bytes: Uint8Array): Taken<PictureSize> {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  let size: PictureSize | null = null;
  let pixels = false;
  let at: number = SIGNATURE.length;
  for (let chunks = 0; chunks < CHUNKS_AT_MOST && at + CHUNK_FRAME <= bytes.length; chunks += 1) {
    const length = view.getUint32(at);
    const end = at + CHUNK_FRAME + length;
    if (end > bytes.length) return damaged('it is cut short');
    const type = String.fromCharCode(...bytes.subarray(at + 4, at + 8));
    if (crc32(bytes.subarray(at + 4, end - 4)) !== view.getUint32(end - 4))
      return damaged(`the checksum of its part ${shown(type)} is wrong`);
    if ((size === null) !== (type === 'IHDR')) return damaged('its header does not come first, or twice');
    if (type === 'acTL')
      return refuse('The PNG moves.', 'Save one still picture of it as a PNG and take that.');
    if (type === 'IHDR') {
      if (length !== 13) return damaged('its header is of the wrong length');
      size = { width: view.getUint32(at + 8), height: view.getUint32(at + 12) };
    }
    if (type === 'IDAT') pixels = true;
    if (type === 'IEND')
      return size !== null && pixels ? ended(bytes, end, size) : damaged('it has no pixels');
    at = end;
  }
  return damaged('it has no end');
}

function ended(bytes: Uint8Array, end: number, size: PictureSize): Taken<PictureSize> {
  if (end === bytes.length) return taken(size);
  return refuse(
    `The PNG has ${String(bytes.length - end)} bytes after its end that are no part of the picture.`,
    'Open it in a picture editor, save it again as a PNG, and take that.',
  );
}

function damaged(what: string): Refusal {
  return refuse(
    `The PNG is damaged: ${what}.`,
    'Take another copy of it, or save it again from a picture editor.',
  );
}

function shown(type: string): string {
  return /^[A-Za-z]{4}$/.test(type) ? type : 'without a name';
}
