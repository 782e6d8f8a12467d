import type { Tree } from '../../../trees/document/index.ts';
import {
  isLost,
  isWon,
  type PairedMean,
  type ReplayCounts,
  type ReplayEnd,
  type ShopReplay,
} from '../../../trees/replay/index.ts';
import { adriftTitle, findingTitle, interlockWords, resultTitle, testTitle } from '../../bench/index.ts';
import { jobsWords, minutesWords, type GlyphName } from '../../parts/index.ts';
import type { ReplayedJob } from './protocol.ts';

/** A verdict as the table shows it: a word and a shape. */
export interface VerdictWords {
  readonly glyph: GlyphName;
  readonly word: string;
}

/** What came of a replayed job, in a word with its sign. */
export function verdictWords(job: ReplayedJob): VerdictWords {
  if (isLost(job)) return { glyph: 'cross', word: 'Confirmed finding lost' };
  if (isWon(job)) return { glyph: 'finding', word: 'Confirmed finding won' };
  return VERDICTS[job.verdict];
}

const VERDICTS: Readonly<Record<ReplayedJob['verdict'], VerdictWords>> = {
  same: { glyph: 'tick', word: 'Same end' },
  elsewhere: { glyph: 'split', word: 'Ends elsewhere' },
  stops: { glyph: 'half', word: 'Stops' },
  gone: { glyph: 'barred', word: 'Symptom gone' },
};

/** Where a walk ended, in the tree it was walked on. `recordedOn` is the job's own tree, for results dropped since. */
export function endWords(tree: Tree, end: ReplayEnd, recordedOn: Tree): string {
  switch (end.kind) {
    case 'finding':
      return findingTitle(tree, end.finding);
    case 'stops':
      return `Stops at “${testTitle(tree, end.test)}”: ${stopsWords(end, recordedOn)}`;
    case 'adrift':
      return adriftTitle(end.because);
    case 'barred':
      return `Barred: ${interlockWords(tree, end.interlock)}`;
    case 'no-symptom':
      return 'The tree has no such symptom';
  }
}

function stopsWords({ test, because, result = '' }: ReplayEnd & { kind: 'stops' }, recordedOn: Tree): string {
  const gave = resultTitle(recordedOn, test, result);
  switch (because) {
    case 'never-made':
      return 'the job did not make it';
    case 'not-measured':
      return `it is measured now, and the job only has “${gave}”`;
    case 'other-unit':
      return 'the job measured it in another unit';
    case 'result-dropped':
      return `the draft has dropped “${gave}”`;
    case 'no-band':
      return 'the reading that it is judged against is of no use';
  }
}

/** A difference of minutes with its sign; `alike` where there is none to a tenth. */
export function moreWords(minutes: number): string {
  const tenths = Math.round(minutes * 10) / 10;
  if (tenths === 0) return 'alike';
  return `${tenths > 0 ? '+' : '\u2212'}${minutesWords(Math.abs(tenths))}`;
}

/** What came of a replay in two or three sentences. */
export function summaryWords({ counts, minutesMore }: ShopReplay): readonly string[] {
  const { jobs, same, longer, shorter, elsewhere, lost, won } = counts;
  const told = [
    `Of ${jobsWords(jobs)}, ${String(same)} come to the same end (${String(longer)} in more minutes, ${String(shorter)} in fewer), ${String(elsewhere)} end elsewhere${elsewhere === 0 ? '' : ` (${String(lost)} lose their confirmed finding, ${String(won)} win it)`} and ${String(counts.stops)} stop for want of an answer.`,
    ...goneWords(counts),
  ];
  return minutesMore === null ? told : [...told, meanWords(minutesMore)];
}

function meanWords({ jobs, mean, interval }: PairedMean): string {
  const both = `Over the ${jobsWords(jobs)} that both bring to the same finding`;
  if (interval !== null && interval.from === 0 && interval.to === 0)
    return `${both}, the draft takes the same minutes each time.`;
  const tenths = Math.round(mean * 10) / 10;
  const by =
    tenths === 0 ? 'as many minutes' : `${minutesWords(Math.abs(tenths))} ${mean > 0 ? 'more' : 'less'}`;
  const within =
    interval === null
      ? 'one job gives no interval'
      : `95 % interval ${signed(interval.from)} to ${signed(interval.to)} min`;
  return `${both}, the draft takes ${by} on average (${within}).`;
}

function goneWords({ gone, confirmedGone, unreadable }: ReplayCounts): readonly string[] {
  return [
    ...(gone === 0 ? [] : [`Of ${jobsWords(gone)} the draft no longer has the symptom.`]),
    ...(confirmedGone === 0
      ? []
      : [`Of ${jobsWords(confirmedGone)} it no longer has the confirmed finding.`]),
    ...(unreadable === 0 ? [] : [`${jobsWords(unreadable)} could not be read.`]),
  ];
}

function signed(minutes: number): string {
  const tenths = Math.round(minutes * 10) / 10;
  return `${tenths < 0 ? '\u2212' : '+'}${Math.abs(tenths).toFixed(1)}`;
}
