import { writeFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { checksumOf } from '../../main/records/index.ts';
import { seededRandom } from '../../main/services/demo/random.ts';
import type { DraftEntry } from '../../trees/edit/index.ts';
import { draftInHand, NOBODY, setting } from '../support/draft-work.ts';
import { workRandomJob } from '../support/random-job.ts';
import { libraryOf, openShop, recordsOf, startSmallJob, tempFolder } from '../support/temp-shop.ts';
import { smallDocument } from '../support/trees.ts';

const SVG = '<svg xmlns="http://www.w3.org/2000/svg"/>';

async function begun() {
  const shop = await openShop();
  return { shop, client: shop.client, ...(await draftInHand(shop)) };
}

/** A test of the small tree that shows a picture. */
function showing(file: string): DraftEntry {
  return setting(['tests', 'tone', 'picture'], { file, points: [] });
}

describe('publishing a draft', () => {
  it('makes the replayed document the tree’s current revision, with its note and author, and ends the draft', async () => {
    const { client, revisionId, append, publish } = await begun();
    await append(setting(['title'], 'Smaller unit'), setting(['summary'], 'Gone'), { kind: 'undo' });
    const summary = await publish(revisionId, '  Renamed\n');
    expect(summary).toMatchObject({ treeId: 'small', title: 'Smaller unit', summary: 'A tree for tests.' });
    const { text } = await client.trees.revision({ revisionId: summary.revisionId });
    expect(text).toBe(`${JSON.stringify({ ...smallDocument(), title: 'Smaller unit' }, null, 2)}\n`);
    expect(await client.revisions.list({ treeId: 'small' })).toMatchObject([
      {
        revisionId: summary.revisionId,
        source: 'published',
        note: 'Renamed',
        technician: 'Bo',
        current: true,
      },
      { revisionId, source: 'library', note: '', technician: null, current: false },
    ]);
    expect(await client.drafts.list()).toEqual([]);
  });

  it('of which nothing differs keeps the base’s bytes', async () => {
    const { client, revisionId, append, publish } = await begun();
    await append(setting(['title'], 'X'), { kind: 'undo' });
    const before = await client.trees.revision({ revisionId });
    const published = await publish();
    const after = await client.trees.revision({ revisionId: published.revisionId });
    expect(after).toMatchObject({ text: before.text, checksum: before.checksum });
  });

  it('is refused where the tree has errors, by the first of them in words', async () => {
    const { client, draftId, append, publish } = await begun();
    await append(setting(['tests', 'tone', 'minutes'], -1), setting(['findings', 'panel-dead', 'title'], ''));
    await expect(publish()).rejects.toMatchObject({
      code: 'CHECK_FAILED',
      message: expect.stringMatching(/There is 1 more error\. Nothing was published\.$/),
      data: { where: '/tests/tone/minutes', help: expect.stringMatching(/./) },
    });
    expect(await client.revisions.list({ treeId: 'small' })).toHaveLength(1);
    expect((await client.drafts.get({ draftId })).entries).toHaveLength(2);
  });

  it('is refused where the tree’s id was changed', async () => {
    const { client, append, publish } = await begun();
    await append(setting(['id'], 'smaller'));
    await expect(publish()).rejects.toMatchObject({ code: 'CHECK_FAILED', data: { where: '/id' } });
    expect(await client.trees.list()).toHaveLength(1);
  });

  it('is refused where a picture that the tree shows is not there', async () => {
    const { append, publish } = await begun();
    await append(showing('speaker.svg'));
    await expect(publish()).rejects.toMatchObject({
      code: 'CHECK_FAILED',
      data: { where: '/tests/tone/picture/file' },
    });
  });

  it('takes along the pictures that the tree shows, and no others', async () => {
    const { shop, client, draftId, append, publish } = await begun();
    const bytes = new TextEncoder().encode(SVG);
    for (const file of ['speaker.svg', 'spare.svg'])
      recordsOf(shop).drafts.addPicture(draftId, { file, bytes });
    await append(showing('speaker.svg'));
    const marks = (await client.drafts.get({ draftId })).pictures;
    expect(marks.map(({ file }) => file)).toEqual(['spare.svg', 'speaker.svg']);
    expect(await client.drafts.picture({ draftId, file: 'spare.svg' })).toMatchObject({
      media: 'image/svg+xml',
    });
    const { revisionId } = await publish();
    expect(recordsOf(shop).pictures.marks(revisionId)).toEqual([
      { file: 'speaker.svg', checksum: checksumOf(bytes) },
    ]);
  });

  it.each([NOBODY, null])('is refused where %s was shown as current, and it is not', async (onto) => {
    const { client, append, publish } = await begun();
    await append(setting(['title'], 'Smaller unit'));
    await expect(publish(onto)).rejects.toMatchObject({ code: 'STALE_REVISION' });
    expect(await client.revisions.list({ treeId: 'small' })).toHaveLength(1);
  });

  it('is refused where the draft has entries that the app has not shown, until it has', async () => {
    const { client, draftId, technicianId, revisionId: onto, append } = await begun();
    await append(setting(['title'], 'Seen'), setting(['summary'], 'Unseen'));
    const publish = (seq: number) =>
      client.drafts.publish({ draftId, seq, technicianId, note: 'As shown', onto });
    await expect(publish(1)).rejects.toMatchObject({ code: 'STALE_DRAFT' });
    expect(await client.revisions.list({ treeId: 'small' })).toHaveLength(1);
    expect(await publish(2)).toMatchObject({ title: 'Seen', summary: 'Unseen' });
  });

  it('is refused where somebody else has published since, until the draft stands on that revision', async () => {
    const { shop, client, draftId, append, publish } = await begun();
    const other = await draftInHand(shop, 'Cy');
    await other.append(setting(['summary'], 'Theirs'));
    const { revisionId } = await other.publish();
    await append(setting(['title'], 'Ours'));
    await expect(publish()).rejects.toMatchObject({ code: 'STALE_REVISION' });
    await expect(publish(revisionId)).rejects.toMatchObject({ code: 'STALE_REVISION' });
    await append(setting(['summary'], 'Theirs'), { kind: 'rebase', revisionId });
    expect((await client.drafts.get({ draftId })).draft).toMatchObject({
      base: revisionId,
      current: revisionId,
    });
    expect(await publish(revisionId)).toMatchObject({ title: 'Ours', summary: 'Theirs' });
  });

  it('leaves every revision published before as it was, to the byte', async () => {
    const { shop, client } = await begun();
    const texts = new Map<string, string>();
    for (const title of ['One', 'Two', 'Three']) {
      const { append, publish } = await draftInHand(shop, title);
      await append(setting(['title'], title));
      const { revisionId } = await publish();
      texts.set(revisionId, (await client.trees.revision({ revisionId })).text);
    }
    for (const [revisionId, text] of texts) {
      const revision = await client.trees.revision({ revisionId });
      expect(revision.text).toBe(text);
      expect(revision.checksum).toBe(checksumOf(new TextEncoder().encode(text)));
    }
    expect(texts.size).toBe(3);
  });

  it('leaves an open job on its revision, to be walked on by that one’s words', async () => {
    const { shop, client, revisionId, append, publish } = await begun();
    const job = await startSmallJob(shop, 'no-sound');
    await job.append({ kind: 'change', axis: 'shell', to: 'open' });
    await append(setting(['tests', 'supply-resistance', 'results', 'clear', 'title'], 'Free'));
    const published = await publish();
    expect((await client.revisions.list({ treeId: 'small' })).map(({ openJobs }) => openJobs)).toEqual([
      0, 1,
    ]);
    await job.append({ kind: 'change', axis: 'shell', to: 'closed' });
    expect((await client.jobs.get({ jobId: job.jobId })).job).toMatchObject({ revisionId, events: 2 });
    expect(published.revisionId).not.toBe(revisionId);
    const next = await startSmallJob(shop, 'no-sound');
    expect(next.revisionId).toBe(published.revisionId);
  });
});

describe('publishing moved bands', () => {
  it(
    'sorts the whole history again, exactly as a rebuild does and as the draft’s own history has it before',
    { timeout: 120_000 },
    async () => {
      const limit = fc.double({ min: 1, max: 1e6, noNaN: true });
      const volts = fc.tuple(
        fc.double({ min: 0.1, max: 5, noNaN: true }),
        fc.double({ min: 0.1, max: 5, noNaN: true }),
      );
      await fc.assert(
        fc.asyncProperty(limit, volts, fc.integer(), async (ohms, [from, width], seed) => {
          const shop = await openShop();
          const records = recordsOf(shop);
          const { append, publish, revisionId, draftId } = await draftInHand(shop);
          const random = seededRandom(seed);
          records.together(() => {
            for (let job = 0; job < 12; job += 1) workRandomJob(records, revisionId, random, 90);
          });
          await append(
            setting(['tests', 'supply-resistance', 'results', 'clear', 'band'], { from: ohms }),
            setting(['tests', 'supply-resistance', 'results', 'short', 'band'], { to: ohms }),
            setting(['tests', 'rail-in', 'results', 'good', 'band'], { from, to: from + width }),
            setting(['tests', 'rail-in', 'results', 'low', 'band'], { to: from }),
            setting(['tests', 'rail-in', 'results', 'high', 'band'], { from: from + width }),
          );
          const former = records.historyOf('small');
          const foreseen = await shop.client.drafts.history({ draftId });
          expect(records.historyOf('small')).toEqual(former);
          await publish();
          const sorted = records.historyOf('small');
          expect(foreseen).toEqual({ entries: 5, history: sorted });
          expect(records.rebuild()).toMatchObject({ differed: [], halted: [] });
          expect(records.historyOf('small')).toEqual(sorted);
          await shop.services.close();
        }),
        { numRuns: 15 },
      );
    },
  );
});

describe('publishing a revision again', () => {
  it('makes its bytes and pictures the current revision, under a new note and author', async () => {
    const folder = tempFolder();
    const document = smallDocument();
    Object.assign(document.tests['tone'] ?? {}, { picture: { file: 'speaker.svg', points: [] } });
    writeFileSync(`${folder}/speaker.svg`, SVG);
    const library = libraryOf(folder, [document]);
    const shop = await openShop({ library });
    const { client } = shop;
    const { technicianId, revisionId, append, publish } = await draftInHand(shop);
    await append(setting(['title'], 'Worse'), {
      kind: 'edit',
      what: 'x',
      changes: [{ do: 'remove', path: ['tests', 'tone', 'picture'] }],
    });
    const worse = await publish();
    const again = await client.revisions.publishAgain({
      revisionId,
      technicianId,
      note: 'Back',
      onto: worse.revisionId,
    });
    const [first, , last] = await client.revisions.list({ treeId: 'small' });
    expect(first).toMatchObject({
      revisionId: again.revisionId,
      note: 'Back',
      technician: 'Bo',
      current: true,
    });
    expect(first?.checksum).toBe(last?.checksum);
    expect(recordsOf(shop).pictures.marks(again.revisionId)).toEqual([
      { file: 'speaker.svg', checksum: checksumOf(new TextEncoder().encode(SVG)) },
    ]);
  });

  it('is refused where another revision than the one shown is current, or there is none such', async () => {
    const { client, technicianId, revisionId, append, publish } = await begun();
    await append(setting(['title'], 'Newer'));
    await publish();
    const ask = { revisionId, technicianId, note: 'Back', onto: revisionId };
    await expect(client.revisions.publishAgain(ask)).rejects.toMatchObject({ code: 'STALE_REVISION' });
    await expect(client.revisions.publishAgain({ ...ask, revisionId: NOBODY })).rejects.toMatchObject({
      code: 'NOT_FOUND',
    });
    expect(await client.revisions.list({ treeId: 'small' })).toHaveLength(2);
  });
});
