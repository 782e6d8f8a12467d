import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { createInterface } from 'node:readline';
import { fileURLToPath } from 'node:url';
import Sqlite from 'better-sqlite3';
import { describe, expect, it } from 'vitest';
import { openRecords } from '../../main/records/index.ts';
import { createLiveDrafts } from '../../main/services/drafts/index.ts';
import { seededRandom } from '../../main/services/demo/random.ts';
import { libraryOf, tempFolder } from '../support/temp-shop.ts';

const SCRIPT = fileURLToPath(new URL('../support/edit-until-killed.ts', import.meta.url));
const KILLS = 8;

/** Runs the editing process, kills it with SIGKILL after so many acknowledgements, and gives all that it wrote. */
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

describe('an editor’s process killed at any moment', () => {
  it.each(['plain', 'checkpoints'])(
    'loses no acknowledged entry or publishing and leaves no half one (%s)',
    { timeout: 180_000 },
    async (mode) => {
      const folder = tempFolder();
      const file = `${folder}/shop.sqlite`;
      const args = [file, libraryOf(folder).href, mode];
      const random = seededRandom(20260302);
      const acks: string[] = [];
      for (let kill = 1; kill <= KILLS; kill += 1) {
        acks.push(...(await acknowledged(args, 1 + Math.floor(random.next() * 50))));
        expectAllThere(file, acks, kill);
      }
      await expectWhole(file);
    },
  );
});

/** Every acknowledged entry and end is there; each kill may have left at most one that was recorded and not yet told. */
function expectAllThere(file: string, acks: readonly string[], kills: number): void {
  const db = new Sqlite(file);
  const rows = db
    .prepare<[], string>(
      "SELECT draft_id || ' ' || seq FROM draft_entry UNION ALL SELECT draft_id || ' ended' FROM draft_ended",
    )
    .pluck()
    .all();
  const gaps = db.prepare(
    'SELECT draft_id FROM draft_entry GROUP BY draft_id HAVING count(*) <> max(seq) + 1',
  );
  // A publishing is whole: a revision, its author and the end of its draft, or none of them.
  const halves = db.prepare(
    `SELECT id FROM tree_revision WHERE source = 'published' AND (
       id NOT IN (SELECT revision_id FROM revision_author) OR id NOT IN (SELECT revision_id FROM draft_ended))`,
  );
  expect(acks.filter((ack) => !rows.includes(ack))).toEqual([]);
  expect(rows.length - acks.length).toBeLessThanOrEqual(kills);
  expect(gaps.all()).toEqual([]);
  expect(halves.all()).toEqual([]);
  db.close();
}

/** The file is sound, all drafts in hand can be replayed, and what is derived follows from what is recorded. */
async function expectWhole(file: string): Promise<void> {
  const opening = openRecords({ file });
  if (!opening.ok) throw new Error(opening.message);
  const { records } = opening;
  expect(await records.integrity.done).toBe('sound');
  const live = createLiveDrafts();
  const inHand = records.drafts.inHand();
  expect(inHand.length).toBeGreaterThan(0);
  for (const draft of inHand) expect(live.at(records, draft)).toMatchObject({ ok: true });
  expect(records.rebuild()).toMatchObject({ differed: [], halted: [] });
  await records.close();
}
