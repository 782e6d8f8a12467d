import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readPicture } from '../../main/services/exchange/index.ts';
import { jpeg, png, pngChunk, svg, turnedJpeg } from '../support/pictures.ts';

const text = (words: string): Uint8Array => new TextEncoder().encode(words);
const none = new Uint8Array(0);

function refusal(bytes: Uint8Array): string {
  const read = readPicture('board.png', bytes);
  if (read.ok) throw new Error('the picture was taken');
  expect(read.help).not.toBe('');
  return read.message;
}

describe('a picture is taken by what it holds', () => {
  it.each([
    ['PNG', png(7, 5), { media: 'image/png', width: 7, height: 5 }],
    ['JPEG', jpeg(), { media: 'image/jpeg', width: 8, height: 6 }],
    ['SVG', text(svg('<rect width="4" height="3"/>')), { media: 'image/svg+xml', width: 40, height: 30 }],
  ])('a %s, whatever its name says', (_, bytes, told) => {
    expect(readPicture('board.txt', bytes)).toMatchObject({ ok: true, value: told });
  });

  it('a PNG or JPEG goes on byte for byte', () => {
    for (const bytes of [png(7, 5), jpeg()])
      expect(readPicture('x', bytes)).toMatchObject({ value: { bytes } });
  });

  it.each([
    [1, 8, 6],
    [3, 8, 6],
    [6, 6, 8],
    [8, 6, 8],
  ])('a JPEG of orientation %d is %d wide and %d high, as it is shown', (orientation, width, height) => {
    expect(readPicture('x', turnedJpeg(orientation))).toMatchObject({ value: { width, height } });
  });

  it.each([
    ['GIF', 'GIF89a', /is a GIF/],
    ['WebP', 'RIFF0000WEBPVP8 ', /is a WebP/],
    ['PDF', '%PDF-1.7', /is a PDF/],
    ['HEIC', '\0\0\0\x18ftypheic', /HEIC/],
    ['zip', 'PK\x03\x04', /packed/],
    ['text', 'hello', /no picture that Ohmward knows/],
    ['empty file', '', /empty/],
  ])('a %s is refused and named for what it is', (_, start, told) => {
    expect(refusal(text(start))).toMatch(told);
  });

  it('a drawing that is not UTF-8 is refused', () => {
    expect(refusal(Buffer.from(svg('<text>é</text>'), 'latin1'))).toMatch(/no picture that Ohmward knows/);
    expect(refusal(Buffer.from(svg('<g/>'), 'utf16le'))).toMatch(/breaks the rules of XML/);
  });

  it('quotes a name in one line of plain characters, and not all of a long one', () => {
    const read = readPicture(`a\u202e\n${'b'.repeat(500)}`, none);
    expect(read).toMatchObject({ ok: false, message: expect.stringMatching(/^“ab{58}…” was not taken/) });
  });
});

describe('a picture is refused', () => {
  it('above 3 MiB', () => {
    const filler = pngChunk('teXt', new Uint8Array(3 * 1024 * 1024));
    expect(refusal(png(7, 5, [filler]))).toMatch(/3\.0 MiB; a picture has at most 3 MiB/);
  });

  it.each([
    ['a side of 12,001 pixels', 12_001, 1],
    ['more than 60 million pixels', 8_000, 7_501],
    ['no height', 8, 0],
  ])('with %s', (_, width, height) => {
    const header = Buffer.from(png(1, 1));
    const data = header.subarray(16, 29);
    data.writeUInt32BE(width, 0);
    data.writeUInt32BE(height, 4);
    const bytes = Buffer.concat([header.subarray(0, 8), pngChunk('IHDR', data), header.subarray(33)]);
    expect(refusal(bytes)).toMatch(/pixels|no size/);
  });

  it.each([
    ['an end cut off', (bytes: Uint8Array) => bytes.subarray(0, -4), /cut short|no end/],
    ['no end', (bytes: Uint8Array) => bytes.subarray(0, -12), /no end/],
    [
      'something after its end',
      (bytes: Uint8Array) => Buffer.concat([bytes, text('<script>')]),
      /8 bytes after/,
    ],
    [
      'a flipped bit',
      (bytes: Uint8Array) => bytes.map((byte, at) => (at === 18 ? byte ^ 1 : byte)),
      /checksum/,
    ],
  ])('as a PNG with %s', (_, spoil, told) => {
    expect(refusal(spoil(png(7, 5)))).toMatch(told);
  });

  it('as a PNG that moves, or whose pixels come before its header', () => {
    expect(refusal(png(7, 5, [pngChunk('acTL', new Uint8Array(8))]))).toMatch(/moves/);
    const bytes = Buffer.concat([png(1, 1).subarray(0, 8), pngChunk('IDAT', none), png(1, 1).subarray(8)]);
    expect(refusal(bytes)).toMatch(/header does not come first/);
  });

  it('as a PNG without pixels', () => {
    const bytes = Buffer.concat([png(1, 1).subarray(0, 33), pngChunk('IEND', none)]);
    expect(refusal(bytes)).toMatch(/no pixels/);
  });

  it.each([
    ['an end cut off', (bytes: Uint8Array) => bytes.subarray(0, -2), /no end/],
    [
      'something after its end',
      (bytes: Uint8Array) => Buffer.concat([bytes, none, text('PK')]),
      /2 bytes after/,
    ],
    ['nothing but a beginning', (bytes: Uint8Array) => bytes.subarray(0, 3), /no end/],
    ['a lossless frame', replaced(0xc0, 0xc3), /not shown everywhere/],
    ['no frame', replaced(0xc0, 0xfe), /before its header/],
  ])('as a JPEG with %s', (_, spoil, told) => {
    expect(refusal(spoil(jpeg()))).toMatch(told);
  });

  it('as a JPEG of more than a hundred passes', () => {
    const plain = jpeg();
    const scan = plain.indexOf(0xda) - 1;
    const pass = plain.subarray(scan, -2);
    const bytes = Buffer.concat([
      plain.subarray(0, scan),
      ...Array<Uint8Array>(101).fill(pass),
      plain.subarray(-2),
    ]);
    expect(refusal(bytes)).toMatch(/too many passes/);
  });
});

describe('whatever bytes come, reading a picture', () => {
  const within = (bytes: Uint8Array): void => {
    const read = readPicture('x', bytes);
    expect(read.ok || read.message !== '').toBe(true);
    if (!read.ok) return;
    expect(Math.max(read.value.width, read.value.height)).toBeLessThanOrEqual(12_000);
    expect(read.value.width * read.value.height).toBeLessThanOrEqual(60_000_000);
  };

  it('gives a picture within limits or a reason, for any bytes', () => {
    fc.assert(fc.property(fc.uint8Array({ maxLength: 300 }), within), { numRuns: 500 });
  });

  it.each([
    ['PNG', png(7, 5)],
    ['JPEG', turnedJpeg(6)],
    ['SVG', text(svg('<g id="a"><use href="#b"/></g><text style="fill:red">x</text>'))],
  ])(
    'gives a picture within limits or a reason, for a %s with bytes changed, cut out and put in',
    (_, good) => {
      const change = fc.record({
        at: fc.nat(good.length),
        cut: fc.nat(4),
        put: fc.uint8Array({ maxLength: 4 }),
      });
      fc.assert(
        fc.property(fc.array(change, { minLength: 1, maxLength: 6 }), (changes) => {
          const bytes = changes.reduce<Uint8Array>(
            (former, { at, cut, put }) =>
              Buffer.concat([former.subarray(0, at), put, former.subarray(at + cut)]),
            good,
          );
          within(bytes);
        }),
        { numRuns: 1000 },
      );
    },
  );
});

/** A JPEG whose marker of one kind is of another kind. */
function replaced(from: number, to: number): (bytes: Uint8Array) => Uint8Array {
  return (bytes) => {
    const at = bytes.findIndex((byte, index) => byte === 0xff && bytes[index + 1] === from);
    return bytes.map((byte, index) => (index === at + 1 ? to : byte));
  };
}
