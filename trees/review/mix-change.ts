import { compareShares, holm } from '../statistics/index.ts';
import { SIGNIFICANT } from './against-all.ts';
import { byText } from './by-text.ts';
import type { Chosen, ChosenBlock } from './choose.ts';
import { DAY, dayOf, dayText, firstDayOf, monthOf } from './day.ts';
import type { MixChange } from './figures.ts';
import type { Tally } from './tally.ts';

/** Confirmed jobs by the finding's code; 0 is none. */
interface Counts {
  readonly now: Uint32Array;
  readonly before: Uint32Array;
}

/**
 * The mix of confirmed findings in the newest quarter, the last three calendar months up to that of the last closing, against
 * all before it. Each finding is compared by Fisher's exact test or chi-square, corrected by Holm for as many as there are.
 * Null where one of the two has no confirmed job.
 */
export function openMixChange({ names, jobs, last }: Chosen): Tally<MixChange | null> {
  const since = jobs === 0 ? 0 : firstDayOf(monthOf(dayOf(last)) - 2);
  const codes = names.findings.length;
  const counts = { now: new Uint32Array(codes), before: new Uint32Array(codes) };
  return {
    add: (block) => countSince(counts, since * DAY, block),
    result: () => changeOf(counts, since, names.findings),
  };
}

function countSince({ now, before }: Counts, since: number, { columns, rows }: ChosenBlock): void {
  const { finding, closedAt } = columns;
  for (let at = 0; at < rows.length; at += 1) {
    const row = rows[at] ?? 0;
    const code = finding[row] ?? 0;
    const into = (closedAt[row] ?? 0) >= since ? now : before;
    into[code] = (into[code] ?? 0) + 1;
  }
}

function changeOf(
  { now, before }: Counts,
  since: number,
  names: Chosen['names']['findings'],
): MixChange | null {
  const all = { now: totalOf(now), before: totalOf(before) };
  if (all.now === 0 || all.before === 0) return null;
  const counted = names
    .map(({ tree, finding }, code) => ({
      tree,
      finding,
      now: now[code] ?? 0,
      before: before[code] ?? 0,
    }))
    .filter((of, code) => code > 0 && of.now + of.before > 0);
  const chances = counted.map((of) => chanceOf(of, all));
  const corrected = holm(chances);
  const findings = counted
    .map((of, place) => {
      const after = corrected[place] ?? 1;
      return { ...of, chance: chances[place] ?? 1, corrected: after, differs: after < SIGNIFICANT };
    })
    .sort((a, b) => a.chance - b.chance || byText(a.tree, b.tree) || byText(a.finding, b.finding));
  return { since: dayText(since), ...all, findings };
}

interface Both {
  readonly now: number;
  readonly before: number;
}

function chanceOf(of: Both, all: Both): number {
  return compareShares([
    [of.now, all.now - of.now],
    [of.before, all.before - of.before],
  ]).chance;
}

function totalOf(counts: Uint32Array): number {
  let sum = 0;
  for (let code = 1; code < counts.length; code += 1) sum += counts[code] ?? 0;
  return sum;
}
