import { compileChart, type Chart } from '../../../trees/chart/index.ts';
import { readAndCheck } from '../../../trees/document/index.ts';
import { replayJob } from '../../../trees/replay/index.ts';
import type { FromReplayer, ReplayedJob, ToReplayer } from './protocol.ts';

/** How many jobs are replayed between two words on how far it is. */
const A_WORD = 5;

/** Replays the jobs one after another, and tells how far it is, then what came of it; or why it failed. */
export function replayAll(asked: ToReplayer, tell: (message: FromReplayer) => void): void {
  try {
    tell({ kind: 'done', replayed: replayedJobs(asked, tell) });
  } catch (error) {
    tell({ kind: 'failed', message: error instanceof Error ? error.message : String(error) });
  }
}

function replayedJobs(
  { draft, published, revisions, jobs }: ToReplayer,
  tell: (message: FromReplayer) => void,
): readonly ReplayedJob[] {
  const charts = chartsByText();
  const texts = new Map(revisions.map(({ revisionId, text }) => [revisionId, text]));
  const draftChart = charts(draft);
  const publishedChart = published === null ? null : charts(published);
  return jobs.flatMap(({ jobId, revisionId, symptom, events, outcome, finding }, at): ReplayedJob[] => {
    if (at % A_WORD === 0) tell({ kind: 'progress', done: at });
    const text = texts.get(revisionId);
    if (text === undefined) throw new Error(`revision-missing: job ${jobId}, revision ${revisionId}`);
    const record = { chart: charts(text), symptom, events, outcome, finding };
    const replayed = replayJob(draftChart, publishedChart, record);
    return replayed === null ? [] : [{ ...replayed, jobId }];
  });
}

/** Charts by their tree's text, each compiled once. */
function chartsByText(): (text: string) => Chart {
  const known = new Map<string, Chart>();
  return (text) => {
    const chart = known.get(text) ?? chartOf(text);
    known.set(text, chart);
    return chart;
  };
}

function chartOf(text: string): Chart {
  const { tree, errors } = readAndCheck(text);
  if (tree === null) throw new Error(`tree-unreadable: ${errors[0]?.message ?? 'there are errors in it'}`);
  return compileChart(tree);
}
