import { beforeEach, describe, expect, it } from 'vitest';
import { ReplayDesk } from '../../app/editor/replay/replay-desk.svelte.ts';
import type { FromReplayer } from '../../app/editor/replay/protocol.ts';
import { replayAll } from '../../app/editor/replay/replayer.ts';
import { moreWords, summaryWords, verdictWords } from '../../app/editor/replay/replay-words.ts';
import { Session, type Client } from '../../app/shell/session.svelte.ts';
import type { PastJob } from '../../main/contract/index.ts';
import { smallDocument, type TreeDocument } from '../support/trees.ts';
import { pastSpeakerJob, SMALL_REVISION } from './past-jobs.ts';
import { expected } from './stand-in-client.ts';

let jobs: readonly PastJob[];
let limits: number[];
let failure: Error | null;
let later: ((message: FromReplayer) => void) | null;
let stopped: number;

beforeEach(() => {
  jobs = [pastSpeakerJob(0), pastSpeakerJob(1)];
  limits = [];
  failure = null;
  later = null;
  stopped = 0;
});

/** A desk over records in memory. Its replays run at once, or where `waits` when the test says so. */
function replayDesk(change: (document: TreeDocument) => void = () => undefined, waits = false): ReplayDesk {
  const text = JSON.stringify(smallDocument());
  const client = {
    history: {
      jobs: async ({ limit }: { limit: number }) => {
        limits.push(limit);
        if (failure !== null) throw failure;
        return jobs.slice(0, limit);
      },
    },
    trees: { revision: async ({ revisionId }: { revisionId: string }) => ({ revisionId, text }) },
  } as unknown as Client;
  const draft = smallDocument();
  change(draft);
  return new ReplayDesk(
    new Session(() => Promise.resolve(client)),
    (asked, heard) => {
      if (waits) later = heard;
      else replayAll(structuredClone(asked), heard);
      return () => (stopped += 1);
    },
    { text: JSON.stringify(draft), treeId: 'small', published: SMALL_REVISION },
  );
}

describe('the replay of a shop', () => {
  it('asks for as many jobs as were chosen, and says in words what came of them', async () => {
    const desk = replayDesk();
    desk.limit = 50;
    await desk.run();
    expect(limits).toEqual([50]);
    expect(desk.report?.shop.counts).toMatchObject({ jobs: 2, same: 2 });
    expect(summaryWords(desk.report?.shop ?? fail())).toEqual([
      'Of 2 jobs, 2 come to the same end (0 in more minutes, 0 in fewer), 0 end elsewhere and 0 stop for want of an answer.',
      'Over the 2 jobs that both bring to the same finding, the draft takes the same minutes each time.',
    ]);
  });

  it('says by how much a draft is longer on average, and in what interval', async () => {
    const desk = replayDesk((document) => {
      const tone = document.tests['tone'];
      if (tone !== undefined) tone.minutes += 1.5;
    });
    await desk.run();
    expect(summaryWords(desk.report?.shop ?? fail()).at(-1)).toBe(
      'Over the 2 jobs that both bring to the same finding, the draft takes 1.5 min more on average (95 % interval +1.5 to +1.5 min).',
    );
    expect(desk.count('longer')).toBe(2);
  });

  it('lists what the filter lets through, and counts each kind', async () => {
    const desk = replayDesk((document) => {
      const listen = document.symptoms['no-sound']?.steps?.['listen'];
      if (listen?.then['silent'] !== undefined) listen.then['silent'].go = 'finding:volume-down';
    });
    await desk.run();
    desk.filter = 'elsewhere';
    expect(desk.listed).toHaveLength(2);
    expect(verdictWords(desk.listed[0] ?? fail()).word).toBe('Confirmed finding lost');
    desk.filter = 'same';
    expect(desk.listed).toEqual([]);
    expect(desk.count('elsewhere')).toBe(2);
  });

  it('says that there is nothing to replay where no job is closed', async () => {
    jobs = [];
    const desk = replayDesk();
    await desk.run();
    expect(desk.stage.kind).toBe('none');
  });

  it('shows how far it is, and hears nothing more once it is stopped', async () => {
    const desk = replayDesk(undefined, true);
    await desk.run();
    later?.({ kind: 'progress', done: 1 });
    expect(desk.stage).toEqual({ kind: 'running', done: 1, of: 2 });
    desk.cancel();
    expect([desk.stage.kind, stopped]).toEqual(['idle', 1]);
    later?.({ kind: 'done', replayed: [] });
    expect(desk.stage.kind).toBe('idle');
  });

  it('says what went wrong in the records, and in the thread', async () => {
    failure = expected('RECORDS_UNAVAILABLE');
    const desk = replayDesk(undefined, true);
    await desk.run();
    expect(desk.stage).toMatchObject({ kind: 'trouble', trouble: { code: 'RECORDS_UNAVAILABLE' } });
    failure = null;
    await desk.run();
    later?.({ kind: 'failed', message: 'tree-unreadable' });
    expect(desk.stage).toMatchObject({ kind: 'trouble', trouble: { where: 'tree-unreadable' } });
  });

  it('does not run while there are errors in the draft', async () => {
    const desk = replayDesk((document) => (document.title = ''));
    await desk.run();
    expect(desk.errors).toMatchObject([{ at: '/title' }]);
    expect([desk.stage.kind, limits]).toEqual(['idle', []]);
  });
});

describe('minutes more', () => {
  it.each([
    [1.52, '+1.5 min'],
    [-0.1, '\u22120.1 min'],
    [0.04, 'alike'],
    [12.4, '+12 min'],
  ])('%d are “%s”', (minutes, words) => {
    expect(moreWords(minutes)).toBe(words);
  });
});

function fail(): never {
  throw new Error('there is no replay');
}
