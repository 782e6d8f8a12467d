import { describe, expect, it } from 'vitest';
import { RevisionListing } from '../../app/editor/list/revision-listing.svelte.ts';
import { newTreeText } from '../../app/editor/list/new-tree.ts';
import { TreeListing } from '../../app/editor/list/tree-listing.svelte.ts';
import { Session } from '../../app/shell/session.svelte.ts';
import { liveTree, openDraft } from '../../trees/edit/index.ts';
import { draftInHand, setting } from '../support/draft-work.ts';
import { openShop } from '../support/temp-shop.ts';

/** The list of a real shop, with one technician, as a window of it has it. */
async function listed() {
  const shop = await openShop();
  const session = new Session(async () => shop.client);
  const { id: technicianId } = await shop.client.shop.addTechnician({ name: 'Mara' });
  const listing = new TreeListing(session);
  await listing.load();
  return { shop, session, listing, technicianId };
}

describe('the list of trees', () => {
  it('has each tree with its current revision, and its drafts in hand', async () => {
    const { shop, session, listing } = await listed();
    const other = await draftInHand(shop, 'Bo');
    await other.append(setting(['title'], 'Smaller unit'));
    await other.publish(other.revisionId, 'Renamed');
    const { draftId } = await draftInHand(shop, 'Cy');
    await listing.load();
    expect(listing.trees).toMatchObject([
      {
        treeId: 'small',
        title: 'Smaller unit',
        revisions: 2,
        current: { note: 'Renamed', technician: 'Bo' },
        drafts: [{ draftId, technician: 'Cy' }],
      },
    ]);
    expect(session.trees[0]?.title).toBe('Smaller unit');
  });

  it('goes on with the own draft of who is at work, and begins one where only others have one', async () => {
    const { shop, session, listing, technicianId } = await listed();
    const { draftId: theirs } = await draftInHand(shop, 'Bo');
    await listing.load();
    session.workAs(technicianId);
    const [tree] = listing.trees;
    if (tree === undefined) throw new Error('no tree');
    const own = await listing.edit(tree);
    expect(own).not.toBe(theirs);
    await listing.load();
    const [now] = listing.trees;
    expect(now?.drafts.map(({ draftId }) => draftId)).toEqual([own, theirs]);
    expect(now && (await listing.edit(now))).toBe(own);
  });

  it('has a new tree as a draft until it is published, under an id made of its title', async () => {
    const { listing } = await listed();
    expect(await listing.begin('Small', 'Sandpiper SP-2')).toEqual(expect.any(String));
    await listing.load();
    expect(listing.trees.map(({ treeId, title, tree }) => [treeId, title, tree === null])).toEqual([
      ['small', 'Small unit', false],
      ['small-2', 'Small', true],
    ]);
  });

  it('has a draft no more that was discarded', async () => {
    const { listing } = await listed();
    const draftId = await listing.begin('Sandpiper', 'Sandpiper SP-2');
    expect(await listing.discard(draftId ?? '')).toBe(true);
    expect(listing.trees).toHaveLength(1);
    expect(await listing.discard(draftId ?? '')).toBe(false);
    expect(listing.trouble).toMatchObject({ code: 'NOT_FOUND', message: 'The draft was discarded.' });
  });

  it('begins nothing while nobody is at work, and says so', async () => {
    const { shop, listing, technicianId } = await listed();
    await shop.client.shop.retireTechnician({ id: technicianId });
    await listing.load();
    expect(await listing.begin('Sandpiper', 'Sandpiper SP-2')).toBeNull();
    expect(listing.trouble?.code).toBe('NOBODY_AT_WORK');
    expect(await shop.client.drafts.list()).toEqual([]);
  });
});

describe('a new tree’s text', () => {
  it('reads as a tree of that name with nothing blank, and begins with a caution', () => {
    const opened = openDraft(newTreeText(' Sandpiper SP-2 ', 'Sandpiper', ['sandpiper-sp-2']));
    if (!opened.ok) throw new Error(opened.message);
    const { tree, blanks } = liveTree(opened.draft.document);
    expect(blanks).toEqual([]);
    expect(tree).toMatchObject({
      id: 'sandpiper-sp-2-2',
      title: 'Sandpiper SP-2',
      unit: { family: 'Sandpiper' },
    });
    expect(tree.cautions).toHaveLength(1);
  });
});

describe('the revisions of a tree', () => {
  it('are newest first, the last two chosen to be compared', async () => {
    const { shop, session } = await listed();
    const { revisionId, publish, append } = await draftInHand(shop, 'Bo');
    await append(setting(['title'], 'Smaller unit'));
    const published = await publish();
    await session.open();
    const revisions = new RevisionListing(session, 'small');
    await revisions.load();
    expect(revisions.title).toBe('Smaller unit');
    expect(revisions.current?.revisionId).toBe(published.revisionId);
    expect([revisions.from, revisions.to]).toEqual([revisionId, published.revisionId]);
    expect(revisions.comparable).toBe(true);
    revisions.from = published.revisionId;
    expect(revisions.comparable).toBe(false);
  });
});
