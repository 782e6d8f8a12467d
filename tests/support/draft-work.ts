import type { DraftEntry, Json, Path } from '../../trees/edit/index.ts';
import type { TempShop } from './temp-shop.ts';

export const NOBODY = '01900000-0000-7000-8000-000000000000';

/** An edit that puts a value in the place of another. */
export function setting(path: Path, value: Json): DraftEntry {
  return { kind: 'edit', what: `Set ${path.join('/')}`, changes: [{ do: 'set', path, value }] };
}

/** A draft on the current revision of the shop's only tree, by a technician of its own, and what can be done with it. */
export async function draftInHand({ client }: TempShop, name = 'Bo') {
  const { id: technicianId } = await client.shop.addTechnician({ name });
  const [tree] = await client.trees.list();
  const revisionId = tree?.revisionId ?? '';
  const { draft } = await client.drafts.start({ technicianId, from: { kind: 'revision', revisionId } });
  const { draftId } = draft;
  let seq = 0;
  const append = async (...entries: DraftEntry[]) => {
    const made = await client.drafts.append({ draftId, seq, technicianId, entries });
    seq = made.entries;
    return made;
  };
  const publish = (onto: string | null = revisionId, note = 'As seen at the bench') =>
    client.drafts.publish({ draftId, seq, technicianId, note, onto });
  return { draftId, technicianId, revisionId, append, publish };
}
