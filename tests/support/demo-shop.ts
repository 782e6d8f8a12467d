import { existsSync, mkdirSync, readdirSync, readFileSync, renameSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { createHash } from 'node:crypto';
import { openRecords } from '../../main/records/index.ts';
import { addLibrary, makeDemo } from '../../main/services/index.ts';

/** Where files are kept from one run to the next; git ignores it. */
const OUTPUT = new URL('../output/', import.meta.url).pathname;
/** All that the demo's jobs follow from, the charts and the arithmetic apart. */
const SOURCES = ['../../main/services/demo/', '../../trees/library/', '../../main/records/migrations/'];

export interface DemoShop {
  readonly file: string;
  /** How long it took; null where it was there from an earlier run. */
  readonly made: { readonly seconds: number; readonly cpuSeconds: number } | null;
}

/** A file with so many invented jobs, made anew only where the demo, its trees or the records have changed since the last run. */
export async function demoShop(jobs: number, seed: number, until: number): Promise<DemoShop> {
  const name = `demo-${String(jobs)}-${String(seed)}-${sourcesMark()}.sqlite`;
  const file = join(OUTPUT, name);
  if (existsSync(file)) return { file, made: null };
  mkdirSync(OUTPUT, { recursive: true });
  for (const old of readdirSync(OUTPUT).filter((one) =>
    one.startsWith(`demo-${String(jobs)}-${String(seed)}-`),
  ))
    rmSync(join(OUTPUT, old));
  const making = `${file}-making`;
  for (const end of ['', '-wal', '-shm']) rmSync(`${making}${end}`, { force: true });
  const [start, cpu] = [performance.now(), process.cpuUsage()];
  const opening = openRecords({ file: making });
  if (!opening.ok) throw new Error(opening.message);
  addLibrary(opening.records);
  const made = makeDemo({ records: opening.records, jobs, seed, until });
  await opening.records.close();
  if (!made.ok) throw new Error(made.message);
  const { user, system } = process.cpuUsage(cpu);
  renameSync(making, file);
  return { file, made: { seconds: (performance.now() - start) / 1000, cpuSeconds: (user + system) / 1e6 } };
}

function sourcesMark(): string {
  const hash = createHash('sha256');
  for (const folder of SOURCES) {
    const at = new URL(folder, import.meta.url);
    for (const file of readdirSync(at).sort()) hash.update(file).update(readFileSync(new URL(file, at)));
  }
  return hash.digest('hex').slice(0, 12);
}
