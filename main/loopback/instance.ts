import { createHmac, randomUUID, timingSafeEqual } from 'node:crypto';
import { constants, copyFileSync, linkSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { z } from 'zod';
import { secret } from './tokens.ts';

const instanceSchema = z.strictObject({
  pid: z.int().positive(),
  port: z.int().min(1).max(65_535),
  secret: z.string().min(40),
});

/** A running loopback host, as its instance file (mode 0600, beside the database) tells of it. */
export type Instance = z.output<typeof instanceSchema>;

export type Claim =
  | { readonly kind: 'claimed'; readonly release: () => void }
  /** Another host has this database; `token` opens it. */
  | { readonly kind: 'found'; readonly port: number; readonly token: string };

const ASK_LIMIT_MS = 5_000;

/**
 * Settles which host has a database: whoever creates the instance file. One that is there and answers is found; one that is
 * left over (its process gone, no answer, or another secret) is replaced.
 */
export async function claimInstance(file: string, own: Instance): Promise<Claim> {
  try {
    return await settle(file, own);
  } catch (error) {
    // Where nothing can be written the records say so on the screen, in better words; the host has to run for that.
    if (UNWRITABLE.has(codeOf(error))) return { kind: 'claimed', release: () => undefined };
    throw error;
  }
}

const UNWRITABLE: ReadonlySet<unknown> = new Set(['EACCES', 'EPERM', 'EROFS', 'ENOSPC', 'EDQUOT']);

async function settle(file: string, own: Instance): Promise<Claim> {
  for (;;) {
    const text = readText(file);
    if (text === null) {
      if (create(file, own)) return { kind: 'claimed', release: () => release(file, own) };
      continue;
    }
    const other = parse(text);
    const token = other === null ? null : await askFor(other);
    if (other !== null && token !== null) return { kind: 'found', port: other.port, token };
    removeLeftOver(file, text);
  }
}

/** What a second start is told: a one-time token, and the proof that whoever tells it knows the secret of the instance file. */
export interface InstanceReply {
  readonly token: string;
  readonly proof: string;
}

/** The reply to `authorization` as a second start sends it, or `null` if it does not know the secret. */
export function answersTo(authorization: string, shared: string, issue: () => string): InstanceReply | null {
  const [scheme, nonce = '', proof = ''] = authorization.split(' ');
  if (scheme !== 'Ohmward' || !same(proof, prove(shared, `ask ${nonce}`))) return null;
  const token = issue();
  return { token, proof: prove(shared, `tell ${nonce} ${token}`) };
}

/** Neither side sends the secret itself: a stranger who now listens at a left-over port learns nothing and is not believed. */
async function askFor(other: Instance): Promise<string | null> {
  if (!isAlive(other.pid)) return null;
  const nonce = secret();
  const reply = await fetch(`http://127.0.0.1:${other.port}/instance`, {
    method: 'POST',
    headers: { authorization: `Ohmward ${nonce} ${prove(other.secret, `ask ${nonce}`)}` },
    redirect: 'error',
    signal: AbortSignal.timeout(ASK_LIMIT_MS),
  })
    .then((response): Promise<unknown> => response.json())
    // Refused, too slow, or no JSON: all mean that no Ohmward answers there.
    .catch(() => null);
  const told = z.object({ token: z.string(), proof: z.string() }).safeParse(reply);
  if (!told.success) return null;
  return same(told.data.proof, prove(other.secret, `tell ${nonce} ${told.data.token}`))
    ? told.data.token
    : null;
}

const prove = (shared: string, text: string): string =>
  createHmac('sha256', shared).update(text).digest('base64url');

const same = (a: string, b: string): boolean =>
  a.length === b.length && timingSafeEqual(Buffer.from(a), Buffer.from(b));

function isAlive(pid: number): boolean {
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    return codeOf(error) !== 'ESRCH';
  }
}

function parse(text: string): Instance | null {
  try {
    return instanceSchema.safeParse(JSON.parse(text)).data ?? null;
  } catch {
    return null;
  }
}

/** A link appears whole or not at all, and only one of two racing starts gets it; where there are no links, an exclusive copy. */
function create(file: string, own: Instance): boolean {
  const draft = `${file}.${randomUUID()}`;
  try {
    writeFileSync(draft, JSON.stringify(own), { mode: 0o600, flag: 'wx' });
    link(draft, file);
    return true;
  } catch (error) {
    if (codeOf(error) === 'EEXIST') return false;
    throw error;
  } finally {
    rmSync(draft, { force: true });
  }
}

function link(from: string, to: string): void {
  try {
    linkSync(from, to);
  } catch (error) {
    if (codeOf(error) === 'EEXIST') throw error;
    copyFileSync(from, to, constants.COPYFILE_EXCL);
  }
}

/** Moves the file away and looks again: if another start has put its own there meanwhile, that one is put back. */
function removeLeftOver(file: string, text: string): void {
  const aside = `${file}.${randomUUID()}`;
  try {
    renameSync(file, aside);
  } catch (error) {
    if (codeOf(error) === 'ENOENT') return;
    throw error;
  }
  if (readText(aside) !== text) link(aside, file);
  rmSync(aside);
}

function release(file: string, own: Instance): void {
  if (parse(readText(file) ?? '')?.secret === own.secret) rmSync(file);
}

function readText(file: string): string | null {
  try {
    return readFileSync(file, 'utf8');
  } catch (error) {
    if (codeOf(error) === 'ENOENT') return null;
    throw error;
  }
}

const codeOf = (error: unknown): unknown =>
  error instanceof Error && 'code' in error ? error.code : undefined;
