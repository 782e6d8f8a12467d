import type { Spread } from '../../../trees/review/index.ts';
import { minutesWords, percent } from '../../parts/index.ts';
import { counted, countWords, finePercent } from '../words/figures.ts';
import type { Span } from './lay-spans.ts';

export interface ShareRow {
  readonly key: string;
  readonly title: string;
  readonly soft?: string | undefined;
  readonly share: number;
  readonly low: number;
  readonly high: number;
  readonly count: number;
  readonly of: number;
  /** The author's share. */
  readonly mark?: number | undefined;
  readonly differs?: boolean | undefined;
}

export interface SpreadRow {
  readonly key: string;
  readonly title: string;
  readonly soft?: string | undefined;
  readonly spread: Spread;
  /** Minutes the tree expects. */
  readonly expected: number | null;
}

export interface MixRow {
  readonly key: string;
  readonly title: string;
  readonly soft?: string | undefined;
  readonly now: number;
  readonly nowOf: number;
  readonly before: number;
  readonly beforeOf: number;
  readonly differs: boolean;
}

export interface ComebackRow {
  readonly key: string;
  readonly title: string;
  readonly soft?: string | undefined;
  readonly fixed: number;
  readonly back: number;
  /** Share back at the window's end; null where nobody has been in sight for so long. */
  readonly share: { readonly at: number; readonly low: number; readonly high: number } | null;
  /** Of all units. */
  readonly all: number | null;
  readonly differs: boolean;
}

export type SpanRow = Span & { readonly key: string; readonly diamond: boolean; readonly broken: boolean };

/** An interval wider than this says too little. */
const TOO_WIDE = 0.4;

/** A share as a row; of none there is nothing to draw but the author's mark. */
export function shareSpan(row: ShareRow): SpanRow {
  const { key, title, soft, share, low, high, count, of, mark, differs = false } = row;
  const wide = high - low > TOO_WIDE;
  return {
    key,
    title,
    soft,
    words: of === 0 ? 'no jobs' : `${percent(share)}, ${countWords(count)} of ${countWords(of)}`,
    note: differs ? 'differs' : of > 0 && wide ? 'too wide to say' : null,
    at: of === 0 ? null : share,
    low: of === 0 ? null : low,
    high: of === 0 ? null : high,
    other: mark ?? null,
    diamond: differs,
    broken: wide,
  };
}

/** A spread as a row. */
export function minuteSpan({ key, title, soft, spread, expected }: SpreadRow): SpanRow {
  const { jobs, lower, median, upper } = spread;
  const none = jobs === 0;
  return {
    key,
    title,
    soft,
    words: none ? 'no jobs' : `${minutesWords(median)}, ${counted(jobs, 'job')}`,
    note: null,
    at: none ? null : median,
    low: none ? null : lower,
    high: none ? null : upper,
    other: expected,
    diamond: false,
    broken: false,
  };
}

/** A finding's share of units back as a row. */
export function comebackSpan({ key, title, soft, fixed, back, share, all, differs }: ComebackRow): SpanRow {
  const wide = share !== null && share.high - share.low > TOO_WIDE;
  const counts = `${countWords(back)} of ${countWords(fixed)}`;
  return {
    key,
    title,
    soft,
    words: share === null ? counts : `${finePercent(share.at)}, ${counts}`,
    note: share === null ? 'too recent to say' : differs ? 'differs' : wide ? 'too wide to say' : null,
    at: share?.at ?? null,
    low: share?.low ?? null,
    high: share?.high ?? null,
    other: all,
    diamond: differs,
    broken: wide,
  };
}

/** A finding's shares now and before as a row. */
export function mixSpan({ key, title, soft, now, nowOf, before, beforeOf, differs }: MixRow): SpanRow {
  const shareNow = nowOf === 0 ? null : now / nowOf;
  const shareBefore = beforeOf === 0 ? null : before / beforeOf;
  const say = (share: number | null): string => (share === null ? 'no jobs' : percent(share));
  return {
    key,
    title,
    soft,
    words: `${say(shareBefore)} to ${say(shareNow)}`,
    note: differs ? 'differs' : null,
    at: shareNow,
    low: null,
    high: null,
    other: shareBefore,
    diamond: differs,
    broken: false,
  };
}
