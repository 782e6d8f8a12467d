import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { createRouterClient, type RouterClient } from '@orpc/server';
import { onTestFinished } from 'vitest';
import { seededIds, type Clock } from '../../main/records/index.ts';
import { openServices, type Services, type ServicesOptions } from '../../main/services/index.ts';
import type { JobEvent } from '../../trees/chart/index.ts';
import { smallDocument } from './trees.ts';

/** A folder that is gone when the test is over. */
export function tempFolder(): string {
  const folder = mkdtempSync(join(tmpdir(), 'ohmward-'));
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
  return folder;
}

/** A clock that moves on by a second each time it is read, from a stated moment. */
export function steppingClock(from = Date.UTC(2026, 0, 5, 9)): Clock {
  let now = from;
  return () => (now += 1000);
}

/** Numbers in [0, 1) from a stated seed (mulberry32, public domain, by Tommy Ettinger; recalled). */
export function seededRandom(seed: number): () => number {
  let state = seed | 0;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
  };
}

/** A library folder that holds these documents, the small tree if none are named. */
export function libraryOf(
  folder: string,
  documents: readonly { readonly id: string }[] = [smallDocument()],
): URL {
  for (const document of documents) {
    writeFileSync(join(folder, `${document.id}.tree.json`), JSON.stringify(document, null, 2));
  }
  return pathToFileURL(`${folder}/`);
}

export interface TempShop {
  readonly services: Services;
  readonly client: RouterClient<Services['router']>;
  readonly file: string;
  readonly folder: string;
}

/** A shop of its own in a temporary folder, with the small tree as its library. Closed when the test is over. */
export async function openShop(options: Partial<ServicesOptions> = {}): Promise<TempShop> {
  const folder = tempFolder();
  const file = options.file ?? join(folder, 'shop.sqlite');
  const services = await openServices({
    host: 'loopback',
    ids: seededIds(seededRandom(1)),
    clock: steppingClock(),
    library: options.library ?? libraryOf(folder),
    ...options,
    file,
  });
  onTestFinished(() => services.close());
  return { services, client: createRouterClient(services.router), file, folder };
}

/** The records of an open shop. */
export function recordsOf({ services }: Pick<TempShop, 'services'>) {
  const opening = services.desk.opening();
  if (!opening.ok) throw new Error(`${opening.code}: ${opening.message}`);
  return opening.records;
}

export function bytesOf(document: object): Uint8Array {
  return new TextEncoder().encode(JSON.stringify(document, null, 2));
}

/** A job of the small tree at a technician of its own, and a way to append to it in order. */
export async function startSmallJob({ client }: TempShop, symptom: 'dark-screen' | 'no-sound') {
  const [tree] = await client.trees.list();
  const technicians = (await client.shop.open()) as { technicians?: readonly { readonly id: string }[] };
  const technicianId =
    technicians.technicians?.[0]?.id ?? (await client.shop.addTechnician({ name: 'Ada' })).id;
  const revisionId = tree?.revisionId ?? '';
  const ticket = { board: 'A1', serial: 'S-0001', reference: 'R-1' };
  const { job } = await client.jobs.start({ revisionId, symptom, technicianId, ...ticket });
  let seq = 0;
  const append = async (event: JobEvent) => {
    const stored = await client.jobs.append({ jobId: job.jobId, seq, technicianId, event });
    seq += 1;
    return stored;
  };
  return { jobId: job.jobId, revisionId, technicianId, append };
}
