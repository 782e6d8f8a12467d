import { byText } from './by-text.ts';
import type { Chosen, ChosenBlock } from './choose.ts';
import { countedOnce } from './counted-once.ts';
import type { ParetoBar } from './figures.ts';
import { MINUTE } from './minute.ts';
import type { Tally } from './tally.ts';

/** By finding: jobs, their time (milliseconds) and the price of their parts. */
type Sums = readonly [jobs: Uint32Array, time: Float64Array, price: Float64Array];

/** Where the hours go: jobs by confirmed finding, their time at the bench and their parts; most jobs first. */
export function openPareto({ names }: Chosen): Tally<readonly ParetoBar[]> {
  const codes = names.findings.length;
  const sums: Sums = [new Uint32Array(codes), new Float64Array(codes), new Float64Array(codes)];
  return { add: (block) => addUp(sums, block), result: () => barsOf(sums, names.findings) };
}

const addUp = countedOnce(([jobs, time, price]: Sums, { columns, rows }: ChosenBlock): void => {
  const { finding, atBench, parts } = columns;
  for (let at = 0; at < rows.length; at += 1) {
    const row = rows[at] ?? 0;
    const code = finding[row] ?? 0;
    jobs[code] = (jobs[code] ?? 0) + 1;
    time[code] = (time[code] ?? 0) + (atBench[row] ?? 0);
    price[code] = (price[code] ?? 0) + (parts[row] ?? 0);
  }
});

/** Without what adding up binary fractions leaves: prices have no more than six decimals. */
function rounded(price: number): number {
  return Math.round(price * 1e6) / 1e6;
}

function barsOf([jobs, time, price]: Sums, names: Chosen['names']['findings']): readonly ParetoBar[] {
  return names
    .map(({ tree, finding }, code) => ({
      tree,
      finding,
      jobs: jobs[code] ?? 0,
      minutes: (time[code] ?? 0) / MINUTE,
      parts: rounded(price[code] ?? 0),
    }))
    .filter((bar, code) => code > 0 && bar.jobs > 0)
    .sort(
      (a, b) =>
        b.jobs - a.jobs || b.minutes - a.minutes || byText(a.tree, b.tree) || byText(a.finding, b.finding),
    );
}
