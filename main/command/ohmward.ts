import { writeSync } from 'node:fs';
import { carryOut } from './carry-out.ts';

async function main(argv: readonly string[]): Promise<void> {
  const outcome = await carryOut(argv);
  process.exitCode = outcome.status;
  if (argv.includes('--json')) print(1, JSON.stringify(outcome.json));
  else print(outcome.status === 2 ? 2 : 1, outcome.text);
}

/** Writes all of it before going on, so that nothing is lost when the process ends on a pipe; a reader that has gone is no failure. */
function print(descriptor: 1 | 2, line: string): void {
  try {
    writeWhole(descriptor, line);
  } catch (cause) {
    process.exitCode = 1;
    if (descriptor === 1)
      print(2, `The answer could not be written: ${cause instanceof Error ? cause.message : String(cause)}.`);
  }
}

function writeWhole(descriptor: 1 | 2, line: string): void {
  let rest = Buffer.from(`${line}\n`);
  while (rest.length > 0) {
    try {
      rest = rest.subarray(writeSync(descriptor, rest));
    } catch (cause) {
      const code = cause instanceof Error && 'code' in cause ? cause.code : '';
      if (code === 'EPIPE') return;
      if (code !== 'EAGAIN') throw cause;
    }
  }
}

await main(process.argv.slice(2));
