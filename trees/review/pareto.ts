import type { Chosen } from './choose.ts';
import type { ParetoBar } from './figures.ts';
import { byText } from './groups.ts';

const MINUTE = 60_000;

/** Where the hours go: jobs by confirmed finding, their time at the bench and their parts; most jobs first. */
export function paretoOf({ blocks, names }: Chosen): readonly ParetoBar[] {
  const codes = names.findings.length;
  const jobs = new Uint32Array(codes);
  const time = new Float64Array(codes);
  const price = new Float64Array(codes);
  for (const { columns, rows } of blocks) {
    const { finding, atBench, parts } = columns;
    for (let at = 0; at < rows.length; at += 1) {
      const row = rows[at] ?? 0;
      const code = finding[row] ?? 0;
      jobs[code] = (jobs[code] ?? 0) + 1;
      time[code] = (time[code] ?? 0) + (atBench[row] ?? 0);
      price[code] = (price[code] ?? 0) + (parts[row] ?? 0);
    }
  }
  return names.findings
    .flatMap(({ tree, finding }, code) => {
      if (code === 0 || jobs[code] === 0) return [];
      const minutes = (time[code] ?? 0) / MINUTE;
      return [{ tree, finding, jobs: jobs[code] ?? 0, minutes, parts: price[code] ?? 0 }];
    })
    .sort(
      (a, b) =>
        b.jobs - a.jobs || b.minutes - a.minutes || byText(a.tree, b.tree) || byText(a.finding, b.finding),
    );
}
