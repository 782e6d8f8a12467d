import { readdirSync, writeFileSync, mkdirSync } from 'node:fs';
import { cpus } from 'node:os';
import type { Measure } from './measure.ts';

const here = import.meta.dirname;
const output = `${here}/../output`;
const NOT_BENCHMARKS = new Set(['run.ts', 'measure.ts']);

/** Runs the benchmarks (or those named) one after another and prints every figure with its limit. Status 1 past a limit. */
async function main(names: readonly string[]): Promise<void> {
  const files = readdirSync(here).filter((file) => file.endsWith('.ts') && !NOT_BENCHMARKS.has(file));
  const wanted =
    names.length === 0 ? files : files.filter((file) => names.includes(file.replace(/\.ts$/, '')));
  if (wanted.length === 0) {
    console.error(
      `No such benchmark. There are: ${files.map((file) => file.replace(/\.ts$/, '')).join(', ')}.`,
    );
    process.exitCode = 2;
    return;
  }
  console.log(`Node ${process.version}, ${cpus().length} × ${cpus()[0]?.model ?? 'unknown processor'}`);
  const all: { benchmark: string; measures: readonly Measure[] }[] = [];
  for (const file of wanted) {
    const { default: benchmark }: { default: () => Promise<readonly Measure[]> } = await import(`./${file}`);
    const measures = await benchmark();
    all.push({ benchmark: file.replace(/\.ts$/, ''), measures });
    console.log(`\n${file.replace(/\.ts$/, '')}`);
    for (const measure of measures) console.log(`  ${line(measure)}`);
  }
  mkdirSync(output, { recursive: true });
  writeFileSync(`${output}/benchmarks.json`, JSON.stringify(all, null, 2));
  const past = all.flatMap(({ measures }) => measures.filter(isPastLimit));
  console.log(
    past.length === 0
      ? '\nEvery figure is within its limit.'
      : `\n${past.length} figures are past their limit.`,
  );
  process.exitCode = past.length === 0 ? 0 : 1;
}

function isPastLimit({ figure, limit }: Measure): boolean {
  return limit !== undefined && !(figure <= limit.atMost);
}

function line(measure: Measure): string {
  const { name, figure, unit, limit, against } = measure;
  const bound =
    limit === undefined ? '' : `  (limit ${limit.atMost}${isPastLimit(measure) ? ', PAST IT' : ''})`;
  return `${name}: ${Number(figure.toPrecision(4))} ${unit}${against === undefined ? '' : ` against ${against}`}${bound}`;
}

await main(process.argv.slice(2));
