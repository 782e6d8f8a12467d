import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { createRouterClient, type RouterClient } from '@orpc/server';
import { onTestFinished } from 'vitest';
import { openRecords, seededIds, type Clock } from '../../main/records/index.ts';
import { seededRandom } from '../../main/services/demo/random.ts';
import { openServices, type Services, type ServicesOptions } from '../../main/services/index.ts';
import { defaultAccuracy } from '../../trees/belief/index.ts';
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
    ids: seededIds(seededRandom(1).next),
    clock: steppingClock(),
    library: options.library ?? libraryOf(folder),
    ...options,
    file,
  });
  onTestFinished(() => services.close());
  return { services, client: createRouterClient(services.router), file, folder };
}

/** Empty records in a folder of their own, for a property that opens many; the caller closes them. */
export function seededShop() {
  const folder = mkdtempSync(join(tmpdir(), 'ohmward-'));
  const ids = seededIds(seededRandom(2).next);
  const opening = openRecords({ file: join(folder, 'shop.sqlite'), ids, clock: steppingClock() });
  if (!opening.ok) throw new Error(opening.message);
  const close = async (): Promise<void> => {
    await opening.records.close();
    rmSync(folder, { recursive: true, force: true });
  };
  return { records: opening.records, file: opening.records.file, close };
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
export async function startSmallJob(
  { client }: TempShop,
  symptom: 'dark-screen' | 'no-sound',
  serial = 'S-0001',
) {
  const [tree] = await client.trees.list();
  const technicians = (await client.shop.open()) as { technicians?: readonly { readonly id: string }[] };
  const technicianId =
    technicians.technicians?.[0]?.id ?? (await client.shop.addTechnician({ name: 'Ada' })).id;
  const revisionId = tree?.revisionId ?? '';
  const ticket = { board: 'A1', serial, reference: 'R-1' };
  const { job } = await client.jobs.start({ revisionId, symptom, technicianId, ...ticket });
  let seq = 0;
  const append = async (event: JobEvent) => {
    const stored = await client.jobs.append({ jobId: job.jobId, seq, technicianId, event });
    seq += 1;
    return stored;
  };
  return { jobId: job.jobId, revisionId, technicianId, append };
}

/** How the small tree's speaker is found and mended, event by event. */
export const SPEAKER_MENDED: readonly JobEvent[] = [
  { kind: 'change', axis: 'shell', to: 'open' },
  clearSupply(),
  { kind: 'change', axis: 'power', to: 'on' },
  { kind: 'answer', test: 'tone', result: 'silent' },
  { kind: 'start-remedy', finding: 'speaker-open' },
  { kind: 'change', axis: 'power', to: 'off' },
  { kind: 'remedy-done', note: 'New speaker in.' },
  clearSupply(),
  { kind: 'change', axis: 'power', to: 'on' },
  { kind: 'answer', test: 'tone', result: 'heard' },
  { kind: 'close', outcome: 'fixed' },
];

/** A job that was closed as fixed, the speaker being open. */
export async function closedSpeakerJob(shop: TempShop, serial?: string) {
  const started = await startSmallJob(shop, 'no-sound', serial);
  for (const event of SPEAKER_MENDED) await started.append(event);
  return started;
}

function clearSupply(): JobEvent {
  const reading = { value: 1200, typed: '1k2', accuracy: defaultAccuracy('ohms') };
  return { kind: 'answer', test: 'supply-resistance', result: 'clear', reading };
}
