import { daysBetween, type Chosen, type ChosenBlock } from './choose.ts';
import { DAY } from './day.ts';
import type { Tally } from './tally.ts';

/** By day after closing, units that were back on it and those lost from sight. What is past the last day is lost right after it. */
export interface ComebackDays {
  readonly back: Uint32Array;
  readonly lost: Uint32Array;
}

/** The same of all findings, one after another: entry code x days + day. */
interface Seen extends ComebackDays {
  readonly days: number;
}

/**
 * By the finding's code, units closed as fixed that are back, or lost from sight because it is `now`. The day begun counts, so
 * that "within 90 days" is less than 90 times 24 hours, the same as the window of first-time fix. Up to twice the window at most;
 * any return of the unit counts. What it results in is good until another is opened: all share their memory.
 */
export function openComebackDays({ names, window, now }: Chosen): Tally<readonly ComebackDays[]> {
  const codes = names.findings.length;
  const days = 2 * window + 2;
  const seen = { days, ...emptied(codes * days) };
  return {
    add: (block) => see(seen, 2 * window, now, block),
    result: () => names.findings.map((_, code) => daysOf(seen, code)),
  };
}

// Grown to what was most; made anew at every question it would pile up until the engine looks for it.
let memory: ComebackDays = { back: new Uint32Array(), lost: new Uint32Array() };

function emptied(entries: number): ComebackDays {
  if (memory.back.length < entries)
    memory = { back: new Uint32Array(entries), lost: new Uint32Array(entries) };
  return { back: memory.back.subarray(0, entries).fill(0), lost: memory.lost.subarray(0, entries).fill(0) };
}

/** The days of several kinds of units together. */
export function together(kinds: readonly ComebackDays[]): ComebackDays {
  const days = kinds[0]?.back.length ?? 0;
  const sum = { back: new Uint32Array(days), lost: new Uint32Array(days) };
  for (const { back, lost } of kinds) {
    for (let day = 0; day < days; day += 1) {
      sum.back[day] = (sum.back[day] ?? 0) + (back[day] ?? 0);
      sum.lost[day] = (sum.lost[day] ?? 0) + (lost[day] ?? 0);
    }
  }
  return sum;
}

/** What is not fixed is counted as lost on day 0, and left out here: to ask at each job whether it is takes longer. */
function daysOf({ days, back, lost }: Seen, code: number): ComebackDays {
  const of = (counts: Uint32Array): Uint32Array =>
    counts.subarray(code * days, (code + 1) * days).fill(0, 0, 1);
  return { back: of(back), lost: of(lost) };
}

function see(
  { days: each, back, lost }: Seen,
  last: number,
  now: number,
  { columns, rows }: ChosenBlock,
): void {
  const { outcome, closedAt, backAt, finding } = columns;
  for (let at = 0; at < rows.length; at += 1) {
    const row = rows[at] ?? 0;
    const isFixed = ((outcome[row] ?? 0) - 1) >>> 31;
    const closed = closedAt[row] ?? 0;
    const backOn = backAt[row] ?? 0;
    const isBack = backOn !== 0 && backOn <= now;
    const days = isBack
      ? daysBetween(closed, backOn)
      : now - closed >= last * DAY
        ? last + 1
        : daysBetween(closed, now);
    const into = isBack && days <= last ? back : lost;
    const entry = (finding[row] ?? 0) * each + Math.min(days, last + 1) * isFixed;
    into[entry] = (into[entry] ?? 0) + 1;
  }
}
