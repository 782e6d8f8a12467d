import { unzipSync } from 'fflate';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { packTree, readImport } from '../../main/services/exchange/index.ts';
import { jpeg, png, svg } from '../support/pictures.ts';
import { smallDocument, type TreeDocument } from '../support/trees.ts';
import { zipOf, type ZipPart } from '../support/zip-file.ts';

const MEBIBYTE = 1024 * 1024;

/** The small tree, one of its tests showing a picture of this name. */
function showing(file: string): TreeDocument {
  const document = smallDocument();
  const [test] = Object.values(document.tests);
  if (test !== undefined) test.picture = { file, points: [{ x: 0.5, y: 0.5, label: 'TP1' }] };
  return document;
}

const textOf = (document: object): string => JSON.stringify(document, null, 2);
const PLAIN: ZipPart = { name: 'small.tree.json', bytes: textOf(smallDocument()) };
const WITH_BOARD: ZipPart = { name: 'small.tree.json', bytes: textOf(showing('board.png')) };
const BOARD: ZipPart = { name: 'board.png', bytes: png(7, 5) };

function refusal(bytes: Uint8Array, name = 'in.zip'): string {
  const read = readImport(name, bytes);
  if (read.ok) throw new Error('the file was taken in');
  expect(read.help).not.toBe('');
  return read.message;
}

describe('a packed tree', () => {
  const pictures = [
    { file: 'wiring.svg', bytes: new TextEncoder().encode(svg('<g/>')) },
    { file: 'board.png', bytes: png(7, 5) },
  ];
  const packed = { name: 'small', text: textOf(smallDocument()), pictures };

  it('is a zip of NAME.tree.json and its pictures, byte for byte', () => {
    const files = unzipSync(packTree(packed));
    expect(Object.keys(files)).toEqual(['small.tree.json', 'board.png', 'wiring.svg']);
    expect(new TextDecoder().decode(files['small.tree.json'])).toBe(packed.text);
    expect(files['board.png']).toEqual(png(7, 5));
  });

  it('is the same bytes for the same content, in whatever order and zone of time', () => {
    const zone = process.env['TZ'];
    const here = packTree(packed);
    try {
      process.env['TZ'] = 'Pacific/Kiritimati';
      expect(packTree({ ...packed, pictures: pictures.toReversed() })).toEqual(here);
    } finally {
      process.env['TZ'] = zone;
    }
  });

  it('is read back as it was', () => {
    const text = textOf(showing('board.png'));
    const [, board] = pictures;
    const zip = packTree({ name: 'small', text, pictures: board === undefined ? [] : [board] });
    const read = readImport('small.zip', zip);
    expect(read).toEqual({ ok: true, value: { treeId: 'small', text, pictures: [board], missing: [] } });
  });
});

describe('a file to be taken in', () => {
  it.each([
    ['a zip of a document and its picture', zipOf([BOARD, WITH_BOARD])],
    ['a zip with a comment', zipOf([WITH_BOARD, BOARD], 'from the shop next door')],
    ['a zip that a Unix machine has packed', zipOf([WITH_BOARD, { ...BOARD, mode: 0o100644 }])],
    ['a zip of what is stored as it is', zipOf([WITH_BOARD, { ...BOARD, method: 0 }])],
  ])('may be %s', (_, bytes) => {
    expect(readImport('in.zip', bytes)).toMatchObject({
      ok: true,
      value: { treeId: 'small', missing: [], pictures: [{ file: 'board.png', bytes: png(7, 5) }] },
    });
  });

  it('may be a bare document, whose pictures are then said to be missing', () => {
    const bytes = new TextEncoder().encode(textOf(showing('board.png')));
    expect(readImport('small.tree.json', bytes)).toMatchObject({
      ok: true,
      value: { missing: ['board.png'] },
    });
  });

  it('may have errors and blank texts, as a draft may', () => {
    const document = { ...showing('board.png'), title: '' };
    document.symptoms = {};
    document.tests['blank'] = { title: '', ask: '', instrument: 'eye', minutes: 1, results: {} };
    const read = readImport('small.tree.json', new TextEncoder().encode(textOf(document)));
    expect(read).toMatchObject({ ok: true, value: { treeId: 'small', missing: ['board.png'] } });
  });

  it('has a drawing in it sanitised', () => {
    const drawing = { name: 'board.svg', bytes: svg('<script>alert(1)</script>') };
    const read = readImport('in.zip', zipOf([{ ...PLAIN, bytes: textOf(showing('board.svg')) }, drawing]));
    if (!read.ok) throw new Error(read.message);
    expect(new TextDecoder().decode(read.value.pictures[0]?.bytes)).not.toContain('script');
  });

  it.each([
    ['no document', zipOf([BOARD]), /no tree document/],
    ['nothing', zipOf([]), /no tree document/],
    ['two documents', zipOf([PLAIN, { ...PLAIN, name: 'other.tree.json' }]), /several tree documents/],
    ['a picture that no test shows', zipOf([PLAIN, BOARD]), /No test of the tree shows “board.png”/],
    ['another file', zipOf([PLAIN, { name: 'run.exe', bytes: 'MZ' }]), /No test of the tree shows “run.exe”/],
    ['a JPEG by a PNG’s name', zipOf([WITH_BOARD, { ...BOARD, bytes: jpeg() }]), /not what its name says/],
    ['text by a PNG’s name', zipOf([WITH_BOARD, { ...BOARD, bytes: 'hello' }]), /no picture/],
    ['none at all', new TextEncoder().encode('not a zip'), /neither a tree document nor a zip/],
    ['a picture by itself', jpeg(), /neither a tree document nor a zip/],
    [
      'a document that is not JSON',
      zipOf([{ ...PLAIN, bytes: '{' }]),
      /damaged, or was not saved to its end/,
    ],
  ])('is refused as a zip of %s', (_, bytes, told) => {
    expect(refusal(bytes)).toMatch(told);
  });

  it.each([
    ['in a folder', 'small/board.png', /folders/],
    ['in the folder above', '../board.png', /folders/],
    ['at the root', '/etc/passwd', /folders/],
    ['on a drive', 'C:board.png', /folders/],
    ['in a folder by backslashes', '..\\board.png', /folders/],
    ['that is a folder', 'small/', /folders/],
    ['of two points', '..', /folders/],
    ['of the same name', 'SMALL.tree.json', /two files of one name/],
    ['without a name', '', /name that cannot be read/],
    ['of a name with a zero in it', 'board.png\0.exe', /name that cannot be read/],
  ])('is refused with an entry %s', (_, name, told) => {
    expect(refusal(zipOf([PLAIN, { name, bytes: 'x' }]))).toMatch(told);
  });

  it.each<[string, ZipPart, RegExp]>([
    ['a link', { ...BOARD, mode: 0o120777 }, /link/],
    ['a device', { ...BOARD, mode: 0o020666 }, /no file/],
    ['a locked file', { ...BOARD, flags: 1 }, /password/],
    ['a file packed in another way', { ...BOARD, method: 12 }, /in a way that is not read/],
    ['a file that calls itself otherwise', { ...BOARD, within: 'other.png' }, /differs/],
    ['a file of a wrong checksum', { ...BOARD, says: { checksum: 1 } }, /checksum/],
    ['a file longer than it says', { ...BOARD, says: { unpacked: 20 } }, /not as long as it says/],
    ['a file shorter than it says', { ...BOARD, says: { unpacked: 90 } }, /not as long as it says/],
    ['a file of no packing', { ...BOARD, packed: new Uint8Array([0xff, 1, 2]) }, /not as long as it says/],
    ['a file past the end', { ...BOARD, says: { packed: 1e9 } }, /cut short/],
    ['a file elsewhere', { ...BOARD, at: 5 }, /not where its directory says/],
    ['a file over another', { ...PLAIN, name: 'small.tree.json', at: 0 }, /over one another/],
  ])('is refused with %s in it', (_, part, told) => {
    expect(refusal(zipOf([WITH_BOARD, part]))).toMatch(told);
  });

  it('is refused as a damaged zip, wherever it is cut', () => {
    const whole = zipOf([WITH_BOARD, BOARD]);
    for (let length = 4; length < whole.length; length += 7)
      expect(refusal(whole.slice(0, length))).toMatch(/./);
    expect(refusal(Buffer.concat([whole, Buffer.from('more')]))).toMatch(/no directory at its end/);
  });

  it('is refused where something stands before the zip', () => {
    expect(refusal(Buffer.concat([Buffer.from('PK\x03\x04'), zipOf([PLAIN])]))).toMatch(
      /directory is not where/,
    );
  });
});

describe('a file out of all proportion is refused', () => {
  it('above 8 MiB', () => {
    expect(refusal(new Uint8Array(8 * MEBIBYTE + 1))).toMatch(/more than 8 MiB/);
  });

  it('with more than 200 entries', () => {
    const many = Array.from({ length: 201 }, (_, at): ZipPart => ({ name: `${at}.png` }));
    expect(refusal(zipOf(many))).toMatch(/holds 201 files/);
  });

  it('with more than 24 MiB in it', () => {
    const honest = Buffer.alloc(13 * MEBIBYTE, 'ab');
    expect(
      refusal(zipOf([PLAIN, { name: 'a.png', bytes: honest }, { name: 'b.png', bytes: honest }])),
    ).toMatch(/more than 24 MiB/);
  });

  it('with a file that unpacks to more than a hundred times its size', () => {
    expect(refusal(zipOf([PLAIN, { name: 'a.png', bytes: Buffer.alloc(4 * MEBIBYTE) }]))).toMatch(
      /hundred times/,
    );
  });

  it('with a file that says it is small and unpacks to 60 MiB, without unpacking them', () => {
    const bomb: ZipPart = { name: 'a.png', bytes: Buffer.alloc(60 * MEBIBYTE), says: { unpacked: 2000 } };
    const zip = zipOf([bomb, PLAIN]);
    const before = process.memoryUsage().arrayBuffers;
    expect(refusal(zip)).toMatch(/not as long as it says/);
    expect(process.memoryUsage().arrayBuffers - before).toBeLessThan(MEBIBYTE);
  });
});

describe('whatever bytes come, taking them in', () => {
  const within = (bytes: Uint8Array): void => {
    const read = readImport('in.zip', bytes);
    expect(read.ok || read.message !== '').toBe(true);
    if (!read.ok) return;
    const total = read.value.pictures.reduce(
      (sum, picture) => sum + picture.bytes.length,
      read.value.text.length,
    );
    expect(total).toBeLessThanOrEqual(24 * MEBIBYTE);
  };

  it('gives a tree within limits or a reason, for any bytes', () => {
    fc.assert(fc.property(fc.uint8Array({ maxLength: 300 }), within), { numRuns: 500 });
    const asZip = fc
      .uint8Array({ maxLength: 300 })
      .map((rest) => Buffer.concat([Buffer.from('PK\x03\x04'), rest]));
    fc.assert(fc.property(asZip, within), { numRuns: 500 });
  });

  it('gives a tree within limits or a reason, for a zip with bytes changed, cut out and put in', () => {
    const good = zipOf([BOARD, { ...WITH_BOARD, method: 0 }], 'x');
    const tail = good.length - 400;
    const at = fc.oneof(
      fc.nat(good.length),
      fc.nat(60),
      fc.nat(400).map((back) => tail + back),
    );
    const change = fc.record({ at, cut: fc.nat(4), put: fc.uint8Array({ maxLength: 4 }) });
    fc.assert(
      fc.property(fc.array(change, { minLength: 1, maxLength: 4 }), (changes) => {
        const bytes = changes.reduce<Uint8Array>(
          (former, { at, cut, put }) =>
            Buffer.concat([former.subarray(0, at), put, former.subarray(at + cut)]),
          good,
        );
        within(bytes);
      }),
      { numRuns: 1500 },
    );
  });

  it('gives a tree within limits or a reason, for a zip of which any one field is another number', () => {
    const good = zipOf([BOARD, { ...WITH_BOARD, method: 0 }]);
    const size = fc.constantFrom(1, 2, 4);
    const value = fc.constantFrom(0, 1, 0xff, 0xffff, 0x7fffffff, 0xffffffff);
    fc.assert(
      fc.property(fc.nat(good.length - 4), size, value, (at, bytes, number) => {
        const changed = Buffer.from(good);
        changed.writeUIntLE(number % 2 ** (8 * bytes), at, bytes);
        within(changed);
      }),
      { numRuns: 1500 },
    );
  });
});
