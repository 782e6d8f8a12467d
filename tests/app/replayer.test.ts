import { describe, expect, it } from 'vitest';
import type { FromReplayer, ToReplayer } from '../../app/editor/replay/protocol.ts';
import { replayAll } from '../../app/editor/replay/replayer.ts';
import { compileChart } from '../../trees/chart/index.ts';
import { replayJob } from '../../trees/replay/index.ts';
import { smallDocument, smallTree } from '../support/trees.ts';
import { pastSpeakerJob, SMALL_REVISION } from './past-jobs.ts';

const TEXT = JSON.stringify(smallDocument());
const ASKED: ToReplayer = {
  draft: TEXT,
  published: TEXT,
  revisions: [{ revisionId: SMALL_REVISION, text: TEXT }],
  jobs: Array.from({ length: 12 }, (_, at) => pastSpeakerJob(at)),
};

/** What is told, copied as between threads. */
function told(asked: ToReplayer): readonly FromReplayer[] {
  const all: FromReplayer[] = [];
  replayAll(structuredClone(asked), (message) => all.push(structuredClone(message)));
  return all;
}

describe('the replay’s thread', () => {
  it('tells how far it is, in order, then every job’s replay', () => {
    const all = told(ASKED);
    expect(all.slice(0, -1)).toEqual([0, 5, 10].map((done) => ({ kind: 'progress', done })));
    const chart = compileChart(smallTree());
    const { symptom, events, outcome, finding } = pastSpeakerJob(0);
    const own = replayJob(chart, chart, { chart, symptom, events, outcome, finding });
    expect(own?.draft.end).toEqual({ kind: 'finding', finding: 'speaker-open' });
    expect(all.at(-1)).toEqual({
      kind: 'done',
      replayed: ASKED.jobs.map(({ jobId }) => ({ ...own, jobId })),
    });
  });

  it('leaves out a job whose events do not fit its tree', () => {
    const jobs = [pastSpeakerJob(0), { ...pastSpeakerJob(1), events: pastSpeakerJob(1).events.slice(1) }];
    const done = told({ ...ASKED, jobs }).at(-1);
    expect(done?.kind === 'done' && done.replayed.map(({ jobId }) => jobId)).toEqual([jobs[0]?.jobId]);
  });

  it('says why it failed at a draft with errors, and at a revision that is not there', () => {
    expect(told({ ...ASKED, draft: '{' }).at(-1)).toMatchObject({ kind: 'failed' });
    expect(told({ ...ASKED, revisions: [] }).at(-1)).toMatchObject({
      kind: 'failed',
      message: expect.stringContaining('revision-missing'),
    });
  });
});
