import { expect, it } from 'vitest';
import type { Change, DraftEntry, Json } from '../../trees/edit/index.ts';
import { draftInHand, setting } from '../support/draft-work.ts';
import { openShop } from '../support/temp-shop.ts';

async function begun() {
  const shop = await openShop();
  return { shop, client: shop.client, ...(await draftInHand(shop)) };
}

const edit = (changes: readonly Change[], joins = false): DraftEntry => ({
  kind: 'edit',
  what: 'Too much',
  changes,
  ...(joins && { joins: true as const }),
});

function record(entries: number): Json {
  return Object.fromEntries(Array.from({ length: entries }, (_, place) => [`t-${String(place)}`, place]));
}

function nested(levels: number): Json {
  return levels === 0 ? 1 : [nested(levels - 1)];
}

/** Moves each entry of a record of 4,000 to its beginning, so many times. */
function moves(times: number): readonly Change[] {
  return Array.from({ length: 4000 * times }, (_, turn): Change => {
    return { do: 'move', path: ['tests', `t-${String(turn % 4000)}`], at: 0 };
  });
}

const inserts = (many: number): readonly Change[] =>
  Array.from({ length: many }, (_, n): Change => ({
    do: 'insert',
    path: ['tests', `n-${String(n)}`],
    at: 0,
    value: 1,
  }));

interface Refused {
  readonly what: string;
  readonly entry: DraftEntry;
  readonly code: string;
  readonly message: RegExp;
}

const REFUSED: readonly Refused[] = [
  {
    what: 'a record of more than 10,000 entries',
    entry: setting(['tests'], record(10_001)),
    code: 'EVENT_REFUSED',
    message: /10001 entries at \/tests, where 10000 can be/,
  },
  {
    what: 'more entries for a record than 10,000',
    entry: edit([{ do: 'set', path: ['tests'], value: record(10_000) }, ...inserts(1)]),
    code: 'EVENT_REFUSED',
    message: /10001 entries at \/tests/,
  },
  {
    what: 'more text than a tree may have',
    entry: setting(['summary'], 'é'.repeat(2_700_000)),
    code: 'EVENT_REFUSED',
    message: /larger than 5 MiB/,
  },
  {
    what: 'changes that shift 30 million entries',
    entry: edit([{ do: 'set', path: ['tests'], value: record(4000) }, ...moves(2)]),
    code: 'EVENT_REFUSED',
    message: /order of too many entries/,
  },
  {
    what: 'values that are nested too deep with what they are in',
    entry: edit([
      { do: 'set', path: ['title'], value: nested(50) },
      { do: 'set', path: ['title', ...Array.from({ length: 14 }, () => 0)], value: nested(50) },
    ]),
    code: 'EVENT_REFUSED',
    message: /more than 64 levels deep/,
  },
  { what: 'more than 20,000 changes', entry: edit(moves(6)), code: 'BAD_REQUEST', message: /./ },
  {
    what: 'more than 200,000 values',
    entry: edit(
      Array.from({ length: 21 }, (_, n): Change => ({
        do: 'set',
        path: ['tests', `x-${String(n)}`],
        value: Array.from({ length: 10_000 }, () => 1),
      })),
    ),
    code: 'BAD_REQUEST',
    message: /./,
  },
];

it.each(REFUSED)(
  'an edit with $what is refused, and the draft goes on as it was',
  async ({ entry, code, message }) => {
    const { client, draftId, append } = await begun();
    await expect(append(entry)).rejects.toMatchObject({
      code,
      message: expect.stringMatching(message),
      ...(code === 'EVENT_REFUSED' && {
        data: { where: '/entries/0', help: expect.stringMatching(/^Nothing was changed\. /) },
      }),
    });
    expect((await client.drafts.get({ draftId })).entries).toEqual([]);
    expect(await append(setting(['title'], 'After'))).toEqual({ entries: 1 });
  },
);

it('entries that take too long together are refused together and recorded in smaller numbers', async () => {
  const { client, draftId, append } = await begun();
  await append(setting(['tests'], record(4000)));
  await append(edit(moves(1)));
  const turns = Array.from({ length: 200 }, (_, n): DraftEntry => ({ kind: n % 2 === 0 ? 'undo' : 'redo' }));
  await expect(append(...turns)).rejects.toMatchObject({
    code: 'TOO_MUCH_AT_ONCE',
    status: 413,
    data: { help: 'Send fewer of them at once.' },
  });
  expect((await client.drafts.get({ draftId })).draft.entries).toBe(2);
  expect(await append(...turns.slice(0, 1))).toEqual({ entries: 3 });
});

it('an edit of a draft that is as large as can be may make it smaller', async () => {
  const { append } = await begun();
  await append(setting(['summary'], 'é'.repeat(2_600_000)));
  await expect(append(setting(['title'], 'é'.repeat(50_000)))).rejects.toMatchObject({
    code: 'EVENT_REFUSED',
  });
  expect(await append(setting(['summary'], ''), setting(['title'], 'é'.repeat(50_000)))).toEqual({
    entries: 3,
  });
});

it.each([
  ['nested', JSON.stringify({ id: 'reed', title: nested(70) })],
  ['wide', JSON.stringify({ id: 'reed', tests: record(20_001) })],
])('no draft of a new tree begins too %s', async (_, text) => {
  const { client, technicianId } = await begun();
  await expect(client.drafts.start({ technicianId, from: { kind: 'new', text } })).rejects.toMatchObject({
    code: 'CHECK_FAILED',
    message: 'The document is nested too deep or is too large.',
  });
});
