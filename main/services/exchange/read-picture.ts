import { isJpeg, readJpeg } from './jpeg.ts';
import { isPng, readPng } from './png.ts';
import { sizeWithin, type PictureSize } from './picture-size.ts';
import { refuse, taken, type Taken } from './refusal.ts';
import { sanitiseSvg } from './svg/sanitise-svg.ts';

/** Largest picture taken, in bytes. */
export const LARGEST_PICTURE_BYTES = 3 * 1024 * 1024;

/** A picture fit to be kept: its bytes (a drawing's written anew), how it is shown, and the endings that its name may have. */
export interface ReadPicture extends PictureSize {
  readonly bytes: Uint8Array;
  readonly media: 'image/png' | 'image/jpeg' | 'image/svg+xml';
  readonly endings: readonly [string, ...string[]];
}

/**
 * Takes a picture by what it holds, whatever its name says: PNG, JPEG or SVG of at most 3 MiB, 12,000 pixels a side and 60
 * million in all. Drawings are sanitised. `name` is only quoted. Takes any bytes; never throws.
 */
export function readPicture(name: string, bytes: Uint8Array): Taken<ReadPicture> {
  const read = readBytes(bytes);
  return read.ok ? read : { ...read, message: `${quoted(name)} was not taken. ${read.message}` };
}

function readBytes(bytes: Uint8Array): Taken<ReadPicture> {
  if (bytes.length === 0) return refuse('It is empty.', 'Take another file.');
  if (bytes.length > LARGEST_PICTURE_BYTES)
    return refuse(
      `It has ${(bytes.length / 1024 / 1024).toFixed(1)} MiB; a picture has at most 3 MiB.`,
      'Make it smaller in a picture editor: 2000 pixels on the longer side are plenty for a board.',
    );
  if (isPng(bytes)) return sized(readPng(bytes), { bytes, media: 'image/png', endings: ['.png'] });
  if (isJpeg(bytes))
    return sized(readJpeg(bytes), { bytes, media: 'image/jpeg', endings: ['.jpg', '.jpeg'] });
  const text = markupIn(bytes);
  return text === null ? unknown(bytes) : drawing(text);
}

function sized(read: Taken<PictureSize>, picture: Omit<ReadPicture, keyof PictureSize>): Taken<ReadPicture> {
  const size = read.ok ? sizeWithin(read.value) : read;
  return size.ok ? taken({ ...picture, ...size.value }) : size;
}

function drawing(text: string): Taken<ReadPicture> {
  const clean = sanitiseSvg(text);
  if (!clean.ok) return clean;
  const { text: written, ...size } = clean.value;
  const bytes = new TextEncoder().encode(written);
  return sized(taken(size), { bytes, media: 'image/svg+xml', endings: ['.svg'] });
}

/** The text, where the bytes are UTF-8 and begin as markup does. */
function markupIn(bytes: Uint8Array): string | null {
  const start = new TextDecoder().decode(bytes.subarray(0, 256));
  if (!/^\s*</.test(start)) return null;
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    return null;
  }
}

const OTHER_KINDS: readonly (readonly [kind: string, start: RegExp])[] = [
  ['a GIF', /^GIF8/],
  ['a WebP', /^RIFF[^]{4}WEBP/],
  ['a PDF', /^%PDF/],
  ['a BMP', /^BM/],
  ['a TIFF', /^(?:II\*\0|MM\0\*)/],
  ['a HEIC or AVIF', /^[^]{4}ftyp/],
  ['a packed file (zip)', /^PK/],
];

function unknown(bytes: Uint8Array): Taken<never> {
  const start = String.fromCharCode(...bytes.subarray(0, 16));
  const kind = OTHER_KINDS.find(([, pattern]) => pattern.test(start))?.[0];
  const message = kind === undefined ? 'It is no picture that Ohmward knows.' : `It is ${kind}.`;
  return refuse(message, 'Save it as PNG, JPEG or SVG (UTF-8) and take that.');
}

/** A file's name as it can stand in a sentence: short, and of no characters that would turn the sentence round. */
export function quoted(name: string): string {
  const plain = name.replace(/[\p{Control}\p{Format}\p{Surrogate}]/gu, '');
  return `“${plain.length > 60 ? `${plain.slice(0, 59)}…` : plain}”`;
}
