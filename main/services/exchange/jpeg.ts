import { refuse, taken, type Refusal, type Taken } from './refusal.ts';
import type { PictureSize } from './picture-size.ts';

const SOI = 0xd8;
const EOI = 0xd9;
const SOS = 0xda;
const APP1 = 0xe1;
/** Baseline, extended and progressive, Huffman coded: what browsers show (ITU-T T.81, table B.1). */
const SHOWN_FRAMES = new Set([0xc0, 0xc1, 0xc2]);
const OTHER_FRAMES = new Set([0xc3, 0xc5, 0xc6, 0xc7, 0xc9, 0xca, 0xcb, 0xcd, 0xce, 0xcf]);
/** A progressive JPEG has about ten scans; each costs a pass over all of its pixels. */
const SCANS_AT_MOST = 100;

interface Walked {
  size: PictureSize | null;
  turned: boolean;
  scans: number;
}

/** Whether bytes begin as a JPEG does. */
export function isJpeg(bytes: Uint8Array): boolean {
  return bytes[0] === 0xff && bytes[1] === SOI && bytes[2] === 0xff;
}

/**
 * The size in pixels at which a JPEG is shown: that of its frame, sides changed where its Exif orientation says that it lies
 * on its side. Its segments and scans are walked (ITU-T T.81, annex B) up to its end, after which there may be nothing.
 */
export function readJpeg(bytes: Uint8Array): Taken<PictureSize> {
  const walked: Walked = { size: null, turned: false, scans: 0 };
  let at = 2;
  while (at + 1 < bytes.length) {
    if (bytes[at] !== 0xff) return damaged('its parts do not follow one another');
    const marker = bytes[at + 1] ?? 0;
    if (marker === 0xff) {
      at += 1;
      continue;
    }
    at += 2;
    if (marker === EOI) return ended(bytes, at, walked);
    const length = ((bytes[at] ?? 0) << 8) | (bytes[at + 1] ?? 0);
    if (length < 2 || at + length > bytes.length) return damaged('it is cut short');
    const wrong = noteSegment(walked, marker, bytes.subarray(at + 2, at + length));
    if (wrong !== null) return wrong;
    at = marker === SOS ? scanEnd(bytes, at + length) : at + length;
  }
  return damaged('it has no end');
}

function noteSegment(walked: Walked, marker: number, data: Uint8Array): Refusal | null {
  if (marker === SOI || marker === 0 || (marker >= 0xd0 && marker <= 0xd7))
    return damaged('its parts are in a wrong order');
  if (OTHER_FRAMES.has(marker))
    return refuse('This is a kind of JPEG that is not shown everywhere.', SAVE_AGAIN);
  if (SHOWN_FRAMES.has(marker)) {
    if (walked.size !== null) return damaged('it has two headers');
    const [, high = 0, low = 0, left = 0, right = 0] = data;
    walked.size = { width: (left << 8) | right, height: (high << 8) | low };
  }
  if (marker === APP1) walked.turned ||= liesOnItsSide(data);
  if (marker !== SOS) return null;
  walked.scans += 1;
  if (walked.size === null) return damaged('its pixels come before its header');
  return walked.scans > SCANS_AT_MOST ? damaged('its pixels come in too many passes') : null;
}

/** Where the coded pixels end: at the next marker that is neither a stuffed byte nor a restart. */
function scanEnd(bytes: Uint8Array, from: number): number {
  for (let at = bytes.indexOf(0xff, from); at >= 0; at = bytes.indexOf(0xff, at + 1)) {
    const next = bytes[at + 1] ?? EOI;
    if (next !== 0 && next !== 0xff && !(next >= 0xd0 && next <= 0xd7)) return at;
  }
  return bytes.length;
}

function ended(bytes: Uint8Array, end: number, { size, turned, scans }: Walked): Taken<PictureSize> {
  if (size === null || scans === 0) return damaged('it has no pixels');
  if (end < bytes.length) {
    return refuse(
      `The JPEG has ${String(bytes.length - end)} bytes after its end that are no part of the picture.`,
      'Telephones add such bytes. Open it in a picture editor, save it again as a JPEG, and take that.',
    );
  }
  return taken(turned ? { width: size.height, height: size.width } : size);
}

/** Exif orientation 5 to 8 (tag 0x0112 of the first directory): the picture is shown turned by a quarter. */
function liesOnItsSide(segment: Uint8Array): boolean {
  if (String.fromCharCode(...segment.subarray(0, 6)) !== 'Exif\0\0') return false;
  const view = new DataView(segment.buffer, segment.byteOffset + 6, segment.byteLength - 6);
  if (view.byteLength < 14) return false;
  const little = view.getUint16(0) === 0x4949;
  const directory = view.getUint32(4, little);
  if (directory + 2 > view.byteLength) return false;
  const entries = view.getUint16(directory, little);
  for (
    let entry = 0, at = directory + 2;
    entry < entries && at + 12 <= view.byteLength;
    entry += 1, at += 12
  ) {
    if (view.getUint16(at, little) === 0x0112) return view.getUint16(at + 8, little) >= 5;
  }
  return false;
}

const SAVE_AGAIN = 'Open it in a picture editor, save it again as a JPEG or PNG, and take that.';

function damaged(what: string): Refusal {
  return refuse(`The JPEG is damaged: ${what}.`, SAVE_AGAIN);
}
