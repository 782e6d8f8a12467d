import { randomBytes, scrypt, timingSafeEqual } from 'node:crypto';
import type { PublishingLock } from '../../records/index.ts';

/** What a passphrase is kept as: its scrypt hash (RFC 7914) under a new salt of 16 bytes. */
export async function lockBy(passphrase: string): Promise<PublishingLock> {
  const salt = randomBytes(SALT_BYTES);
  const hash = await hashOf(passphrase, salt);
  return { salt: salt.toString('base64url'), hash: hash.toString('base64url') };
}

/** Whether this is the passphrase; takes as long whether it is or not. */
export async function opens(passphrase: string, { salt, hash }: PublishingLock): Promise<boolean> {
  const kept = Buffer.from(hash, 'base64url');
  const tried = await hashOf(passphrase, Buffer.from(salt, 'base64url'));
  return kept.length === tried.length && timingSafeEqual(kept, tried);
}

const SALT_BYTES = 16;
const HASH_BYTES = 32;

/** RFC 7914: N is the cost, r the block size; 128 N r bytes of memory are needed, and Node refuses at just its limit. */
const COST = { N: 2 ** 15, r: 8, p: 1, maxmem: 64 * 1024 * 1024 };

/** Typed on another keyboard, the same letters may be composed otherwise: NFKC makes them the same. */
function hashOf(passphrase: string, salt: Buffer): Promise<Buffer> {
  return new Promise((resolve, reject) => {
    scrypt(passphrase.normalize('NFKC'), salt, HASH_BYTES, COST, (error, hash) =>
      error === null ? resolve(hash) : reject(error),
    );
  });
}
