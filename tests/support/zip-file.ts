import { crc32, deflateRawSync } from 'node:zlib';

/** An entry of a zip to be made for a test, every statement in it free to be a lie. */
export interface ZipPart {
  readonly name: string;
  readonly bytes?: Uint8Array | string;
  readonly packed?: Uint8Array;
  readonly method?: number;
  readonly flags?: number;
  /** Unix mode in the directory's attributes. */
  readonly mode?: number;
  readonly says?: { readonly unpacked?: number; readonly packed?: number; readonly checksum?: number };
  /** Name that the entry itself has, where that differs from the directory's. */
  readonly within?: string;
  /** Where the directory says it is, where that is a lie. */
  readonly at?: number;
}

/** A zip made by hand (APPNOTE 4.3), so that it can be wrong in any one place. */
export function zipOf(parts: readonly ZipPart[], comment = ''): Uint8Array {
  const pieces: Buffer[] = [];
  const directory: Buffer[] = [];
  let at = 0;
  for (const part of parts) {
    const { local, central } = entryOf(part, at);
    pieces.push(local);
    directory.push(central);
    at += local.length;
  }
  const size = directory.reduce((sum, { length }) => sum + length, 0);
  const end = Buffer.alloc(22);
  end.writeUInt32LE(0x06054b50, 0);
  end.writeUInt16LE(parts.length, 8);
  end.writeUInt16LE(parts.length, 10);
  end.writeUInt32LE(size, 12);
  end.writeUInt32LE(at, 16);
  end.writeUInt16LE(comment.length, 20);
  return new Uint8Array(Buffer.concat([...pieces, ...directory, end, Buffer.from(comment)]));
}

function entryOf(part: ZipPart, at: number): { local: Buffer; central: Buffer } {
  const bytes = Buffer.from(part.bytes ?? '');
  const method = part.method ?? 8;
  const packed = Buffer.from(part.packed ?? (method === 8 ? deflateRawSync(bytes) : bytes));
  const says = { unpacked: bytes.length, packed: packed.length, checksum: crc32(bytes), ...part.says };
  const name = Buffer.from(part.name);
  const within = Buffer.from(part.within ?? part.name);
  const shared = Buffer.alloc(26);
  shared.writeUInt16LE(20, 0);
  shared.writeUInt16LE(part.flags ?? 0, 2);
  shared.writeUInt16LE(method, 4);
  shared.writeUInt32LE(says.checksum, 10);
  shared.writeUInt32LE(says.packed, 14);
  shared.writeUInt32LE(says.unpacked, 18);
  shared.writeUInt16LE(within.length, 22);
  const local = Buffer.concat([Buffer.from('PK\x03\x04', 'latin1'), shared, within, packed]);
  shared.writeUInt16LE(name.length, 22);
  const rest = Buffer.alloc(14);
  rest.writeUInt32LE(((part.mode ?? 0) << 16) >>> 0, 6);
  rest.writeUInt32LE(part.at ?? at, 10);
  const central = Buffer.concat([Buffer.from('PK\x01\x02\x14\x03', 'latin1'), shared, rest, name]);
  return { local, central };
}
