import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { createInterface } from 'node:readline';
import { fileURLToPath } from 'node:url';
import Sqlite from 'better-sqlite3';
import { describe, expect, it } from 'vitest';
import { openRecords } from '../../main/records/index.ts';
import { seededRandom } from '../../main/services/demo/random.ts';
import { libraryOf, tempFolder } from '../support/temp-shop.ts';

const SCRIPT = fileURLToPath(new URL('../support/append-until-killed.ts', import.meta.url));
const KILLS = 15;

/** Runs the appending process, kills it with SIGKILL after so many acknowledgements, and gives all that it wrote. */
async function acknowledged(args: readonly string[], after: number): Promise<readonly string[]> {
  const child = spawn(process.execPath, [SCRIPT, ...args], { stdio: ['ignore', 'pipe', 'inherit'] });
  const exit = once(child, 'exit');
  const lines: string[] = [];
  for await (const line of createInterface({ input: child.stdout })) {
    lines.push(line);
    if (lines.length === after) child.kill('SIGKILL');
  }
  const [, signal] = await exit;
  expect(signal).toBe('SIGKILL');
  return lines;
}

describe('a process killed at any moment', () => {
  it.each(['plain', 'checkpoints'])(
    'loses no acknowledged event and leaves no half one (%s)',
    { timeout: 180_000 },
    async (mode) => {
      const folder = tempFolder();
      const file = `${folder}/shop.sqlite`;
      const library = libraryOf(folder).href;
      const random = seededRandom(20260105);
      const acks: string[] = [];
      for (let kill = 1; kill <= KILLS; kill += 1) {
        const after = 1 + Math.floor(random.next() * 60);
        acks.push(...(await acknowledged([file, library, String(kill), mode], after)));
        expectAllThere(file, acks, kill);
      }
      const opening = openRecords({ file });
      if (!opening.ok) throw new Error(opening.message);
      expect(await opening.records.integrity.done).toBe('sound');
      expect(opening.records.rebuild()).toMatchObject({ differed: [], halted: [] });
      await opening.records.close();
    },
  );
});

/** Every acknowledged event is there; each kill may have left at most one that was recorded and not yet told. */
function expectAllThere(file: string, acks: readonly string[], kills: number): void {
  const db = new Sqlite(file);
  const rows = db
    .prepare<[], string>("SELECT job_id || ' ' || seq || ' ' || id FROM job_event")
    .pluck()
    .all();
  const gaps = db.prepare(
    `SELECT job_id FROM job_status WHERE events <> (SELECT count(*) FROM job_event WHERE job_event.job_id = job_status.job_id)
     UNION ALL SELECT job_id FROM job_event GROUP BY job_id HAVING count(*) <> max(seq) + 1`,
  );
  expect(acks.filter((ack) => !rows.includes(ack))).toEqual([]);
  expect(rows.length - acks.length).toBeLessThanOrEqual(kills);
  expect(gaps.all()).toEqual([]);
  db.close();
}
