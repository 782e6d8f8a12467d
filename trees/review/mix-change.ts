import { compareShares, holm } from '../statistics/index.ts';
import type { Chosen } from './choose.ts';
import { DAY, dayOf, dayText, firstDayOf, monthOf } from './day.ts';
import type { MixChange } from './figures.ts';
import { byText } from './groups.ts';

/** A finding's share has changed where, corrected for all that are compared, chance makes it less likely than this. */
export const SIGNIFICANT = 0.05;

/**
 * The mix of confirmed findings in the newest quarter, the last three calendar months up to that of the last closing, against
 * all before it. Each finding is compared by Fisher's exact test or chi-square, corrected by Holm for as many as there are.
 * Null where one of the two has no confirmed job.
 */
export function mixChange(chosen: Chosen): MixChange | null {
  if (chosen.jobs === 0) return null;
  const since = firstDayOf(monthOf(dayOf(lastClosing(chosen))) - 2);
  const { now, before } = countedSince(chosen, since * DAY);
  const all = { now: totalOf(now), before: totalOf(before) };
  if (all.now === 0 || all.before === 0) return null;
  const counted = chosen.names.findings.flatMap(({ tree, finding }, code) => {
    const of = { now: now[code] ?? 0, before: before[code] ?? 0 };
    return code === 0 || of.now + of.before === 0 ? [] : [{ tree, finding, ...of }];
  });
  const chances = counted.map(
    (of) =>
      compareShares([
        [of.now, all.now - of.now],
        [of.before, all.before - of.before],
      ]).chance,
  );
  const corrected = holm(chances);
  const findings = counted
    .map((of, place) => {
      const chance = chances[place] ?? 1;
      const after = corrected[place] ?? 1;
      return { ...of, chance, corrected: after, differs: after < SIGNIFICANT };
    })
    .sort((a, b) => a.chance - b.chance || byText(a.tree, b.tree) || byText(a.finding, b.finding));
  return { since: dayText(since), ...all, findings };
}

function lastClosing({ blocks }: Chosen): number {
  let last = -Infinity;
  for (const { columns, rows } of blocks) {
    for (let at = 0; at < rows.length; at += 1) {
      const closed = columns.closedAt[rows[at] ?? 0] ?? 0;
      if (closed > last) last = closed;
    }
  }
  return last;
}

function countedSince(
  { blocks, names }: Chosen,
  since: number,
): { readonly now: Uint32Array; readonly before: Uint32Array } {
  const now = new Uint32Array(names.findings.length);
  const before = new Uint32Array(names.findings.length);
  for (const { columns, rows } of blocks) {
    const { finding, closedAt } = columns;
    for (let at = 0; at < rows.length; at += 1) {
      const row = rows[at] ?? 0;
      const code = finding[row] ?? 0;
      const into = (closedAt[row] ?? 0) >= since ? now : before;
      into[code] = (into[code] ?? 0) + 1;
    }
  }
  return { now, before };
}

/** Confirmed jobs: code 0 stands for none. */
function totalOf(counts: Uint32Array): number {
  let sum = 0;
  for (let code = 1; code < counts.length; code += 1) sum += counts[code] ?? 0;
  return sum;
}
