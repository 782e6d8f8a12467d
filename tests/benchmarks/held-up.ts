import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { RPCHandler } from '@orpc/server/fetch';
import { hasManyValues } from '../../main/loopback/many-values.ts';
import { openServices } from '../../main/services/index.ts';
import type { Change, DraftEntry, Json } from '../../trees/edit/index.ts';
import type { Measure } from './measure.ts';

const AT_MOST = 250;
const ROUNDS = 3;

/** Entries that the app may ask to have recorded at once, on a draft that has those before. */
interface Asked {
  readonly name: string;
  readonly before?: readonly DraftEntry[];
  readonly entries: readonly DraftEntry[];
}

const edit = (changes: readonly Change[]): DraftEntry => ({ kind: 'edit', what: 'Bench', changes });
const set = (name: string, value: Json): Change => ({ do: 'set', path: ['tests', name], value });
const times = <T>(many: number, make: (place: number) => T): T[] =>
  Array.from({ length: many }, (_, n) => make(n));
const record = (entries: number, value: Json): Json =>
  Object.fromEntries(times(entries, (place) => [`key-${String(place)}`, place === 0 ? value : place]));

const WIDE = edit([set('wide', record(10_000, 1))]);
const MOVES = edit(
  times(2900, (n) => ({
    do: 'move',
    path: ['tests', 'wide', `key-${String((n * 7919) % 10_000)}`],
    at: (n * 104_729) % 10_000,
  })),
);
/** Eight records of 10,000 entries, each in the one before. */
const DEEP = edit([
  set(
    'deep',
    times(8, () => null).reduce<Json>((inner) => record(10_000, inner), 1),
  ),
]);
const DEEP_PATH = ['tests', 'deep', ...times(8, () => 'key-0')];
const OTHER = edit(times(20_000, (n) => set(`other-${String(n % 5000)}`, { a: n })));

const ASKED: readonly Asked[] = [
  {
    name: '200,000 values in lists',
    entries: [
      edit(
        times(19, (n) =>
          set(
            `list-${String(n)}`,
            times(10_000, () => []),
          ),
        ),
      ),
    ],
  },
  {
    name: '190,000 values in wide records',
    entries: [edit(times(19, (n) => set(`wide-${String(n)}`, record(10_000, n))))],
  },
  { name: '20,000 changes', entries: [OTHER] },
  { name: 'taking 20,000 changes back', before: [OTHER], entries: [{ kind: 'undo' }] },
  { name: 'shifting 29 million entries', before: [WIDE], entries: [MOVES] },
  { name: 'taking that back', before: [WIDE, MOVES], entries: [{ kind: 'undo' }] },
  {
    name: 'taking that back and making it again a hundred times (refused)',
    before: [WIDE, MOVES],
    entries: times(200, (n) => ({ kind: n % 2 === 0 ? 'undo' : 'redo' })),
  },
  {
    name: '200 edits eight wide records deep (refused)',
    before: [DEEP],
    entries: times(200, (n) => edit([{ do: 'set', path: DEEP_PATH, value: n }])),
  },
  { name: '4 MiB of text', entries: [edit([set('text', 'x'.repeat(4 * 1024 * 1024))])] },
];

/**
 * How long the main process is held up by one request to record entries of a draft, from its bytes to the answer's (processor
 * time): the worst that an app could ask which is not to be trusted. The limit is what a technician may have to wait for meanwhile.
 */
export default async function (): Promise<Measure[]> {
  const measures: Measure[] = [];
  for (const asked of ASKED) {
    const figures: number[] = [];
    for (let round = 0; round < ROUNDS; round += 1) figures.push(await heldUp(asked));
    const figure = figures.toSorted((a, b) => a - b)[1] ?? 0;
    measures.push({ name: asked.name, figure, unit: 'ms', limit: { atMost: AT_MOST } });
  }
  const body = new TextEncoder().encode(`[${'[],'.repeat(4 * 1024 * 1024 - 2)}[]]`);
  const from = ownMs();
  if (!hasManyValues(body, 250_000)) throw new Error('A body of four million values is not refused.');
  measures.push({
    name: 'a body of four million values (refused)',
    figure: ownMs() - from,
    unit: 'ms',
    limit: { atMost: AT_MOST },
  });
  return measures;
}

async function heldUp({ before = [], entries }: Asked): Promise<number> {
  const folder = mkdtempSync(join(tmpdir(), 'ohmward-bench-'));
  const services = await openServices({ file: join(folder, 'shop.sqlite'), host: 'loopback' });
  const handler = new RPCHandler(services.router);
  const ask = async (
    path: string,
    question: unknown,
  ): Promise<{ readonly json: unknown; readonly ms: number }> => {
    const body = new TextEncoder().encode(JSON.stringify({ json: question }));
    const headers = { 'content-type': 'application/json' };
    const from = ownMs();
    hasManyValues(body, 250_000);
    const asked = new Request(`http://127.0.0.1/rpc/${path}`, { method: 'POST', headers, body });
    const { response } = await handler.handle(asked, { prefix: '/rpc', context: {} });
    const text = (await response?.text()) ?? '';
    return { json: (JSON.parse(text) as { json: unknown }).json, ms: ownMs() - from };
  };
  try {
    const { id: technicianId } = (await ask('shop/addTechnician', { name: 'Bo' })).json as { id: string };
    const text = JSON.stringify({ id: 'bench', title: 'Bench', tests: {} });
    const begun = await ask('drafts/start', { technicianId, from: { kind: 'new', text } });
    const { draftId } = (begun.json as { draft: { draftId: string } }).draft;
    const append = (seq: number, some: readonly DraftEntry[]) =>
      ask('drafts/append', { draftId, seq, technicianId, entries: some });
    for (const [seq, entry] of before.entries()) taken((await append(seq, [entry])).json);
    const { json, ms } = await append(before.length, entries);
    if (entries.length === 1) taken(json);
    return ms;
  } finally {
    await services.close();
    rmSync(folder, { recursive: true, force: true });
  }
}

/** Processor time of this thread alone, so that what else the machine does is left out, as is waiting for the disk. */
function ownMs(): number {
  const { user, system } = process.threadCpuUsage();
  return (user + system) / 1000;
}

function taken(answer: unknown): void {
  if (typeof answer !== 'object' || answer === null || !('entries' in answer)) {
    throw new Error(`The benchmark’s entries are not taken: ${JSON.stringify(answer)}`);
  }
}
