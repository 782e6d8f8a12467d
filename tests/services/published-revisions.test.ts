import fc from 'fast-check';
import { expect, it } from 'vitest';
import { checksumOf } from '../../main/records/index.ts';
import { put, type DraftDocument, type DraftEntry } from '../../trees/edit/index.ts';
import { closedSpeakerJob, openShop, type TempShop } from '../support/temp-shop.ts';
import { smallDocument } from '../support/trees.ts';

const TREE = 'small';

/** One act that touches drafts, revisions or jobs. */
type Act =
  | { readonly kind: 'publish'; readonly title: string; readonly limit: number }
  | { readonly kind: 'discard' }
  | { readonly kind: 'again'; readonly pick: number }
  | { readonly kind: 'job' };

const acts: fc.Arbitrary<Act> = fc.oneof(
  fc.record({
    kind: fc.constant('publish' as const),
    title: fc
      .string({ minLength: 1, maxLength: 20 })
      .map((words) => `T ${words.replaceAll(/\p{Cc}/gu, ' ')}`),
    limit: fc.integer({ min: 10, max: 1100 }),
  }),
  fc.constant({ kind: 'discard' as const }),
  fc.record({ kind: fc.constant('again' as const), pick: fc.nat() }),
  fc.constant({ kind: 'job' as const }),
);

it(
  'a published revision’s text and checksum never change, whatever is published, discarded or walked afterwards',
  { timeout: 120_000 },
  async () => {
    const shop = await openShop();
    const technicianId = (await shop.client.shop.addTechnician({ name: 'Mara' })).id;
    const seen = new Map<string, { readonly text: string; readonly checksum: string }>();
    const look = async (): Promise<void> => {
      for (const { revisionId } of await shop.client.revisions.list({ treeId: TREE })) {
        const { text, checksum } = await shop.client.trees.revision({ revisionId });
        const first = seen.get(revisionId) ?? { text, checksum };
        expect({ text, checksum }).toEqual(first);
        expect(checksum).toBe(checksumOf(new TextEncoder().encode(text)));
        seen.set(revisionId, first);
      }
    };
    await look();
    await fc.assert(
      fc.asyncProperty(fc.array(acts, { minLength: 1, maxLength: 6 }), async (list) => {
        for (const act of list) {
          await make(shop, technicianId, act);
          await look();
        }
      }),
      { numRuns: 12 },
    );
    expect(seen.size).toBeGreaterThan(1);
  },
);

async function make(shop: TempShop, technicianId: string, act: Act): Promise<void> {
  const { client } = shop;
  const [current] = await client.trees.list();
  const onto = current?.revisionId ?? '';
  switch (act.kind) {
    case 'publish': {
      const { draft } = await client.drafts.start({
        technicianId,
        from: { kind: 'revision', revisionId: onto },
      });
      const { draftId } = draft;
      await client.drafts.append({ draftId, seq: 0, technicianId, entries: [retitled(act)] });
      await client.drafts.publish({ draftId, seq: 1, technicianId, note: 'Drawn', onto });
      return;
    }
    case 'discard': {
      const { draft } = await client.drafts.start({
        technicianId,
        from: { kind: 'revision', revisionId: onto },
      });
      await client.drafts.discard({ draftId: draft.draftId, technicianId });
      return;
    }
    case 'again': {
      const revisions = await client.revisions.list({ treeId: TREE });
      const picked = revisions[act.pick % revisions.length];
      if (picked === undefined) throw new Error('The shop has its library.');
      await client.revisions.publishAgain({
        revisionId: picked.revisionId,
        technicianId,
        note: 'Again',
        onto,
      });
      return;
    }
    case 'job':
      await closedSpeakerJob(shop);
  }
}

/** Another title and another limit, so that the bytes differ and history is sorted again. */
function retitled({ title, limit }: Extract<Act, { kind: 'publish' }>): DraftEntry {
  const document = smallDocument() as unknown as DraftDocument;
  const path = ['tests', 'supply-resistance', 'results'];
  const moved = [
    { do: 'set' as const, path: [...path, 'short', 'band', 'to'], value: limit },
    { do: 'set' as const, path: [...path, 'clear', 'band', 'from'], value: limit },
  ];
  return { kind: 'edit', what: 'Drawn', changes: [...put(document, ['title'], title), ...moved] };
}
