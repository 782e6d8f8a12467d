import { crc32, deflateSync } from 'node:zlib';

const PNG_SIGNATURE = [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a];

/** One chunk of a PNG, with its length and checksum. */
export function pngChunk(type: string, data: Uint8Array): Uint8Array {
  const named = Buffer.concat([Buffer.from(type, 'latin1'), data]);
  const chunk = Buffer.alloc(named.length + 8);
  chunk.writeUInt32BE(data.length, 0);
  chunk.set(named, 4);
  chunk.writeUInt32BE(crc32(named), named.length + 4);
  return chunk;
}

/** A PNG of grey stripes, one byte a pixel; any more chunks come before its pixels. */
export function png(width: number, height: number, more: readonly Uint8Array[] = []): Uint8Array {
  const header = Buffer.alloc(13);
  header.writeUInt32BE(width, 0);
  header.writeUInt32BE(height, 4);
  header.set([8, 0, 0, 0, 0], 8);
  const rows = Buffer.alloc((width + 1) * height, 0);
  for (let row = 0; row < height; row += 1)
    rows.fill((row * 8) % 256, row * (width + 1) + 1, (row + 1) * (width + 1));
  return new Uint8Array(
    Buffer.concat([
      Buffer.from(PNG_SIGNATURE),
      pngChunk('IHDR', header),
      ...more,
      pngChunk('IDAT', deflateSync(rows)),
      pngChunk('IEND', Buffer.alloc(0)),
    ]),
  );
}

/** A JPEG of 8 by 6 pixels, all copper, as a browser wrote it. */
export function jpeg(): Uint8Array {
  return new Uint8Array(Buffer.from(JPEG.join(''), 'base64'));
}

/** The same JPEG with an Exif orientation, 1 to 8. */
export function turnedJpeg(orientation: number): Uint8Array {
  const tiff = Buffer.alloc(26);
  tiff.write('MM\0*', 'latin1');
  tiff.writeUInt32BE(8, 4);
  tiff.writeUInt16BE(1, 8);
  tiff.writeUInt16BE(0x0112, 10);
  tiff.writeUInt16BE(3, 12);
  tiff.writeUInt32BE(1, 14);
  tiff.writeUInt16BE(orientation, 18);
  const segment = Buffer.concat([
    Buffer.from([0xff, 0xe1, 0, 8 + tiff.length]),
    Buffer.from('Exif\0\0'),
    tiff,
  ]);
  const plain = jpeg();
  return new Uint8Array(Buffer.concat([plain.subarray(0, 2), segment, plain.subarray(2)]));
}

/** A drawing of these elements, 40 by 30. */
export function svg(within: string, more = ''): string {
  return `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 40 30" width="40" height="30"${more}>${within}</svg>`;
}

const JPEG = [
  '/9j/4AAQSkZJRgABAQAAAQABAAD/2wBDAFA3PEY8MlBGQUZaVVBfeMiCeG5uePWvuZHI////////////////////////////////',
  '////////////////////2wBDAVVaWnhpeOuCguv/////////////////////////////////////////////////////////////',
  '////////////wAARCAAGAAgDASIAAhEBAxEB/8QAFQABAQAAAAAAAAAAAAAAAAAAAAH/xAAUEAEAAAAAAAAAAAAAAAAAAAAA/8QA',
  'FAEBAAAAAAAAAAAAAAAAAAAAA//EABQRAQAAAAAAAAAAAAAAAAAAAAD/2gAMAwEAAhEDEQA/AKAIj//Z',
];
