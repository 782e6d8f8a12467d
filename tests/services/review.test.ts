import { rmSync } from 'node:fs';
import { join } from 'node:path';
import Sqlite from 'better-sqlite3';
import { describe, expect, it, onTestFinished, vi } from 'vitest';
import type { ReviewSlice } from '../../main/contract/index.ts';
import { openFactReader } from '../../main/records/fact-reader.ts';
import type { SymptomExpected } from '../../main/records/index.ts';
import { answer } from '../../main/services/answer.ts';
import { append, startJob } from '../../main/services/index.ts';
import { openReviewer, type Reviewer } from '../../main/services/review/index.ts';
import { startThread, type ReviewThread } from '../../main/services/review/start-thread.ts';
import { createWalks } from '../../main/services/walks.ts';
import type { JobEvent } from '../../trees/chart/index.ts';
import { reviewOf, type ReviewFilter } from '../../trees/review/index.ts';
import { smallTree } from '../support/trees.ts';
import {
  bytesOf,
  closedSpeakerJob,
  openShop,
  recordsOf,
  SPEAKER_MENDED,
  startSmallJob,
  tempFolder,
  type TempShop,
} from '../support/temp-shop.ts';

const ALL: ReviewFilter = { from: null, to: null, tree: null, board: null, technician: null, window: 90 };
const NOW = Date.UTC(2026, 5, 1);

/** A shop with so many closed jobs, of two units: one in three was not fixed. */
async function workedShop(jobs = 24): Promise<TempShop> {
  const shop = await openShop();
  const records = recordsOf(shop);
  const revisionId = records.trees.currentId('small') ?? '';
  const technicianId = records.technicians.add('Ada')?.id ?? '';
  const walks = createWalks();
  records.together(() => {
    for (let job = 0; job < jobs; job += 1) {
      const serial = `S-${String(job % 2)}`;
      const ticket = { revisionId, symptom: 'no-sound', board: 'A1', serial, reference: '', technicianId };
      const started = startJob(records, ticket, false);
      if (!started.ok) throw new Error(started.trouble.message);
      const { jobId } = started.value;
      const events = job % 3 === 0 ? DECLINED : SPEAKER_MENDED;
      for (const [seq, event] of events.entries())
        append(records, walks, { jobId, seq, technicianId, event });
    }
  });
  return shop;
}

const DECLINED: readonly JobEvent[] = [{ kind: 'close', outcome: 'declined' }];

function reviewerOf(file: string, options: Partial<Parameters<typeof openReviewer>[0]> = {}): Reviewer {
  const reviewer = openReviewer({ file, ready: () => answer(null), ...options });
  onTestFinished(() => reviewer.end());
  return reviewer;
}

const figuresOf = (reviewer: Reviewer, filter = ALL, signal?: AbortSignal) =>
  reviewer.ask({ kind: 'figures', filter, now: NOW }, signal);

async function closedIn(reviewer: Reviewer): Promise<number> {
  const given = await figuresOf(reviewer);
  if (given?.ok !== true) throw new Error(given?.trouble.message ?? 'abandoned');
  return given.value.review.jobs;
}

describe('the review’s figures', () => {
  it('are those of the facts on record, with the tree’s branches and what it expects beside them', async () => {
    const { client, file } = await workedShop();
    const { review, complete, invented } = await client.review.figures({});
    const reader = openFactReader(file);
    const { figures } = reviewOf(reader.facts(), ALL, review.asOf);
    reader.close();
    expect(figures.jobs).toBe(24);
    const { branches, minutes, ...rest } = review;
    const { minutes: bare, ...expected } = figures;
    expect(rest).toEqual(expected);
    expect(minutes.map((one) => ({ ...one, expected: null }))).toEqual(bare);
    expect(minutes.some((one) => (one.expected?.toProof ?? 0) > 0)).toBe(true);
    expect(branches.some(({ passed }) => passed > 0)).toBe(true);
    expect([complete, invented]).toEqual([true, false]);
  });

  it('name what they hold and say what can be chosen', async () => {
    const shop = await workedShop();
    const { names, choices } = await shop.client.review.figures({});
    const [ada] = recordsOf(shop).technicians.list();
    expect(choices).toMatchObject({ trees: ['small'], technicians: [ada?.id] });
    expect(names.technicians[ada?.id ?? '']).toBe('Ada');
    expect(names.symptoms['small/no-sound']).toBe(
      recordsOf(shop).trees.current('small')?.symptoms['no-sound']?.title,
    );
    expect(names.revisions['small']).toBe(recordsOf(shop).trees.currentId('small'));
    expect(names.results).toHaveProperty('small/tone/heard');
  });

  it('have in the next answer a job that was closed after the last one', async () => {
    const shop = await workedShop();
    const before = await shop.client.review.figures({});
    await closedSpeakerJob(shop);
    const after = await shop.client.review.figures({});
    expect(after.review.jobs).toBe(before.review.jobs + 1);
    expect(after.review.record.jobs).toBe(before.review.record.jobs + 1);
    const toneAt = ({ review }: typeof before) =>
      review.branches.find(({ test, result }) => test === 'tone' && result === 'silent');
    expect(toneAt(after)?.passed).toBe((toneAt(before)?.passed ?? 0) + 1);
    expect(toneAt(after)?.now).not.toBe(toneAt(before)?.now);
  });

  it('leave the choice of a board to boards that a closed job has', async () => {
    const shop = await openShop();
    const { append } = await closedSpeakerJob(shop);
    const boards = async () => (await shop.client.review.figures({})).choices.boards;
    expect(await boards()).toEqual([{ tree: 'small', board: 'A1' }]);
    await append({ kind: 'take-back' });
    expect(await boards()).toEqual([]);
  });

  it('of a shop without a closed job are there, and of nothing', async () => {
    const { client } = await openShop();
    const { review, choices } = await client.review.figures({});
    expect(review).toMatchObject({ jobs: 0, record: { jobs: 0, first: null, last: null } });
    expect(choices).toEqual({ trees: [], boards: [], technicians: [] });
  });
});

describe('the jobs behind a figure', () => {
  it('are as many as the figure says, page by page, newest first and none twice', async () => {
    const { client } = await workedShop();
    const { review } = await client.review.figures({});
    const [finding] = review.byFinding;
    const [branch] = review.branches.filter(({ took }) => took > 1);
    const treeOf = finding?.tree ?? null;
    if (finding === undefined || treeOf === null || branch === undefined)
      throw new Error('nothing was found');
    const { tree, symptom, step, result } = branch;
    const wanted: readonly (readonly [ReviewSlice, number])[] = [
      [{ kind: 'all' }, review.jobs],
      [{ kind: 'first-time-fixed' }, review.firstTimeFix.fixed],
      [{ kind: 'finding', tree: treeOf, finding: finding.id }, finding.closed],
      [{ kind: 'branch', tree, symptom, step, result }, branch.took],
    ];
    for (const [slice, count] of wanted) {
      const jobs = [];
      for (let next: string | null = null, first = true; first || next !== null; first = false) {
        const page = await client.review.jobs({ filter: {}, slice, before: next, limit: 7 });
        expect(page.total).toBe(count);
        jobs.push(...page.jobs);
        next = page.next;
      }
      expect(new Set(jobs.map(({ jobId }) => jobId)).size).toBe(count);
      expect(jobs).toHaveLength(count);
      expect(jobs.map(({ openedAt }) => openedAt)).toEqual(
        jobs
          .map(({ openedAt }) => openedAt)
          .sort()
          .reverse(),
      );
    }
  });

  it('say which job their unit was next back with, on which day, and how many remedies were in vain', async () => {
    const shop = await openShop();
    const inVain = SPEAKER_MENDED.map((event): JobEvent => {
      return event.kind === 'answer' && event.result === 'heard' ? { ...event, result: 'silent' } : event;
    });
    const first = await closedSpeakerJob(shop, 'S-1');
    const second = await startSmallJob(shop, 'no-sound', 's-1');
    for (const event of [...inVain.slice(0, -1), ...DECLINED]) await second.append(event);
    const third = await startSmallJob(shop, 'dark-screen', 'S-1');
    await closedSpeakerJob(shop, 'S-2');
    const { jobs } = await shop.client.review.jobs({ filter: {}, slice: { kind: 'all' } });
    expect(jobs.map(({ backOn, backWith, failed }) => [backOn, backWith, failed])).toEqual([
      [null, null, 0],
      [1, third.jobId, 1],
      [1, second.jobId, 0],
    ]);
    expect(jobs.at(-1)?.jobId).toBe(first.jobId);
  });

  it('are none of a branch of a tree that the shop has not', async () => {
    const { client } = await workedShop(10);
    const slice = { kind: 'branch', tree: 'other', symptom: 'a', step: 'b', result: 'c' } as const;
    expect(await client.review.jobs({ filter: {}, slice })).toEqual({ jobs: [], total: 0, next: null });
  });
});

describe('the thread that reviews are made in', () => {
  it('answers from the restored records what was asked in the middle of a restore', async () => {
    const shop = await workedShop(20);
    const { jobs } = (await shop.client.review.figures({})).review;
    const { file } = await shop.client.backups.make();
    await closedSpeakerJob(shop);
    const asked = [shop.client.review.figures({}), shop.client.review.figures({})];
    const restored = shop.client.backups.restore({ file });
    asked.push(shop.client.review.figures({}));
    expect(await restored).toMatchObject({ state: 'ready', closedJobs: jobs });
    const answered = (await Promise.all(asked)).map(({ review }) => review.jobs);
    expect(answered.slice(1)).toEqual([jobs, jobs]);
    expect([jobs, jobs + 1]).toContain(answered[0]);
    expect((await shop.client.review.figures({})).review.jobs).toBe(jobs);
  });

  it('lets the shop be closed in the middle of a question, which is told so', async () => {
    const shop = await workedShop(20);
    const asked = Promise.allSettled([shop.client.review.figures({}), shop.client.review.figures({})]);
    await shop.services.close();
    for (const one of await asked) {
      if (one.status === 'rejected') expect(one.reason).toMatchObject({ code: 'RECORDS_UNAVAILABLE' });
    }
    expect((await asked)[1]?.status).toBe('rejected');
    await expect(shop.client.review.figures({})).rejects.toMatchObject({ code: 'RECORDS_UNAVAILABLE' });
  });

  it('says that the records cannot be used where they cannot, and answers once they can', async () => {
    const shop = await workedShop(20);
    const { jobs } = (await shop.client.review.figures({})).review;
    const { file } = await shop.client.backups.make();
    await shop.services.desk.reopen(() => {
      rmSync(shop.file);
      new Sqlite(shop.file).exec('PRAGMA user_version = 9999; PRAGMA application_id = 1332571533').close();
    });
    await expect(shop.client.review.figures({})).rejects.toMatchObject({ code: 'RECORDS_UNAVAILABLE' });
    await shop.client.backups.restore({ file });
    expect((await shop.client.review.figures({})).review.jobs).toBe(jobs);
  });

  it('says of a file that cannot be read why not, and reads it at the next question once it can be', async () => {
    const shop = await workedShop(10);
    const file = join(tempFolder(), 'copy.sqlite');
    const reviewer = reviewerOf(file);
    expect(await figuresOf(reviewer)).toMatchObject({
      ok: false,
      trouble: { code: 'RECORDS_UNAVAILABLE', where: file, message: expect.stringContaining('CANTOPEN') },
    });
    await copyTo(shop, file);
    expect(await closedIn(reviewer)).toBe(recordsOf(shop).tallies().closed);
  });

  it('is started anew after it died, whatever it died of', async () => {
    const shop = await workedShop(10);
    const file = join(tempFolder(), 'copy.sqlite');
    new Sqlite(file).exec('CREATE TABLE other (a INTEGER)').close();
    const reviewer = reviewerOf(file);
    const both = await Promise.all([figuresOf(reviewer), figuresOf(reviewer)]);
    for (const one of both) {
      expect(one).toMatchObject({
        ok: false,
        trouble: { code: 'RECORDS_UNAVAILABLE', message: expect.stringContaining('no such table') },
      });
    }
    rmSync(file);
    await copyTo(shop, file);
    expect(await closedIn(reviewer)).toBe(recordsOf(shop).tallies().closed);
  });

  it('is not bothered with a question that nobody waits for any more', async () => {
    const shop = await workedShop(20);
    const asked: string[] = [];
    const ready = () => {
      asked.push('begun');
      return answer(null);
    };
    const reviewer = reviewerOf(shop.file, { ready });
    const abort = new AbortController();
    const first = figuresOf(reviewer);
    const dropped = [figuresOf(reviewer, ALL, abort.signal), figuresOf(reviewer, ALL, abort.signal)];
    const last = figuresOf(reviewer, { ...ALL, tree: 'small' });
    abort.abort();
    expect(await Promise.all(dropped)).toEqual([null, null]);
    expect(await first).toMatchObject({ ok: true });
    expect(await last).toMatchObject({ ok: true });
    expect(asked).toHaveLength(2);
  });

  it('can work out beforehand what every question needs, and answers the same then', async () => {
    const shop = await workedShop(10);
    const [cold, warm] = [reviewerOf(shop.file), reviewerOf(shop.file)];
    expect(await warm.ask({ kind: 'warm' })).toEqual(answer(null));
    expect(await figuresOf(warm)).toEqual(await figuresOf(cold));
  });

  it('gives up waiting at once for what it is at, and answers the next question', async () => {
    const { client } = await workedShop(20);
    const abort = new AbortController();
    const given = client.review.figures({}, { signal: abort.signal });
    abort.abort();
    await expect(given).rejects.toThrow();
    expect((await client.review.figures({})).review.jobs).toBe(20);
  });
});

describe('what a revision’s author expects', () => {
  it('is worked out beside the work and recorded, on a thread that ends with it, and is read from there', async () => {
    const shop = await workedShop(10);
    const { expected } = recordsOf(shop);
    const fresh = await minutesIn(reviewerOf(shop.file));
    const kept: (readonly SymptomExpected[])[] = [];
    const threads: ReviewThread[] = [];
    const reviewer = reviewerOf(shop.file, {
      warmAfter: 0,
      expected: {
        isMissing: expected.isMissing,
        keep: (all) => {
          kept.push(all);
          expected.keep(all);
        },
      },
      start: (file) => {
        const thread = startThread(file);
        threads.push(thread);
        return thread;
      },
    });
    expect(expected.isMissing()).toBe(true);
    reviewer.warmSoon();
    await vi.waitFor(() => expect(threads.map((thread) => thread.isAlive())).toEqual([false, true]), WAIT);
    expect(expected.isMissing()).toBe(false);
    expect(await minutesIn(reviewer)).toEqual(fresh);
    reviewer.warmSoon();
    await reviewer.ask({ kind: 'warm' });
    expect(kept).toHaveLength(1);
    expected.keep((kept[0] ?? []).map((one) => ({ ...one, minutes: MARK })));
    expect((await minutesIn(reviewerOf(shop.file)))[0]?.expected).toEqual(MARK);
  });

  it('is worked out anew for a revision that is published, and after a rebuild', async () => {
    const shop = await workedShop(4);
    const { addRevision, expected, rebuild, trees } = recordsOf(shop);
    const reader = openFactReader(shop.file);
    onTestFinished(() => reader.close());
    const missing = reader.unexpected();
    expect(missing).toEqual([{ revisionId: trees.currentId('small'), symptom: 'no-sound' }]);
    expected.keep(missing.map((one) => ({ ...one, minutes: null })));
    expect([...reader.expectedOf(missing[0]?.revisionId ?? '')]).toEqual([['no-sound', null]]);
    expect(expected.isMissing()).toBe(false);
    expect(rebuild().differed).toEqual([]);
    expect(reader.unexpected()).toEqual(missing);
    expected.keep(missing.map((one) => ({ ...one, minutes: MARK })));
    const tree = { ...smallTree(), title: 'Another' };
    addRevision({ bytes: bytesOf(tree), tree, source: 'published', note: '', pictures: [] });
    expect(reader.unexpected()).toEqual([{ revisionId: trees.currentId('small'), symptom: 'no-sound' }]);
  });

  it('is left alone where the records are closed meanwhile', async () => {
    const shop = await workedShop(4);
    const threads: ReviewThread[] = [];
    const keep = vi.fn();
    const reviewer = reviewerOf(shop.file, {
      warmAfter: 0,
      expected: { isMissing: () => true, keep },
      start: (file) => {
        const thread = startThread(file);
        threads.push(thread);
        // Once it has been asked.
        queueMicrotask(() => void reviewer.pause());
        return thread;
      },
    });
    reviewer.warmSoon();
    await vi.waitFor(() => expect(threads[0]?.isAlive()).toBe(false), WAIT);
    expect(keep).not.toHaveBeenCalled();
    expect(threads).toHaveLength(1);
  });
});

/** Other than anything that is worked out. */
const MARK = { toFinding: 1, toProof: 2 };
const WAIT = { timeout: 20_000, interval: 20 };

async function minutesIn(reviewer: Reviewer) {
  const given = await figuresOf(reviewer);
  if (given?.ok !== true) throw new Error(given?.trouble.message ?? 'abandoned');
  return given.value.review.minutes;
}

async function copyTo(shop: TempShop, file: string): Promise<void> {
  const db = new Sqlite(shop.file, { readonly: true });
  await db.backup(file);
  db.close();
}
