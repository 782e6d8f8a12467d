import { randomUUID } from 'node:crypto';
import {
  accessSync,
  closeSync,
  constants,
  fsyncSync,
  lstatSync,
  openSync,
  realpathSync,
  renameSync,
  rmSync,
  writeFileSync,
  type Stats,
} from 'node:fs';
import { dirname, join } from 'node:path';
import { toScxml } from '../../trees/chart/index.ts';
import { text, type Asked, type Command } from './command.ts';
import { trouble, value, wrongUse, type Or, type Outcome } from './outcome.ts';
import { soundTree } from './tree-file.ts';

/** `export FILE --scxml OUT`: writes the chart of a tree as W3C SCXML 1.0. OUT is replaced whole, or left as it was. */
export const exportChart: Command = {
  usage: 'export FILE --scxml OUT [--json]',
  says: 'writes the chart of a tree as W3C SCXML 1.0',
  options: { scxml: { type: 'string' } },
  run: async (asked) => exported(asked),
};

function exported(asked: Asked): Outcome {
  const [file, ...more] = asked.positionals;
  const out = text(asked, 'scxml');
  if (file === undefined || more.length > 0 || out === undefined) {
    return wrongUse('One FILE and --scxml OUT must be named.', `Write: ohmward ${exportChart.usage}`).outcome;
  }
  const tree = soundTree(file);
  if (!tree.ok) return tree.outcome;
  const chart = toScxml(tree.value);
  const written = writtenWhole(file, out, chart);
  if (!written.ok) return written.outcome;
  return { status: 0, text: `Wrote ${out}.`, json: { file, scxml: out, bytes: Buffer.byteLength(chart) } };
}

function writtenWhole(file: string, out: string, chart: string): Or<null> {
  try {
    const earlier = lstatSync(out, { throwIfNoEntry: false });
    if (earlier?.isFile() === false) return notWritten(out, `it is ${kindOf(earlier)}, not a file`);
    if (earlier !== undefined && realpathSync(out) === realpathSync(file)) {
      return notWritten(out, 'it is the tree document itself');
    }
    replace(out, earlier, chart);
    return value(null);
  } catch (cause) {
    const message = cause instanceof Error ? cause.message : String(cause);
    // What follows the first comma is the system call and the name of the unfinished file.
    const [reason = message] = message.split(', ');
    return notWritten(out, reason);
  }
}

/** Written under another name in the same folder and only then given its own, so that a full disk costs no earlier file. */
function replace(out: string, earlier: Stats | undefined, chart: string): void {
  // Renaming asks leave of the folder alone: a file that is protected from writing must not fall to it.
  if (earlier !== undefined) accessSync(out, constants.W_OK);
  const unfinished = join(dirname(out), `.ohmward-export-${randomUUID()}`);
  try {
    const descriptor = openSync(unfinished, 'wx', earlier?.mode);
    try {
      writeFileSync(descriptor, chart);
      fsyncSync(descriptor);
    } finally {
      closeSync(descriptor);
    }
    renameSync(unfinished, out);
  } finally {
    rmSync(unfinished, { force: true });
  }
}

function kindOf(stats: Stats): string {
  if (stats.isDirectory()) return 'a folder';
  return stats.isSymbolicLink() ? 'a link' : 'a device or a pipe';
}

function notWritten(out: string, reason: string) {
  return trouble(
    'NOT_WRITTEN',
    `${out} cannot be written: ${reason}.`,
    'Name a file, new or to be replaced, in a folder that you may write to, on a disk with room.',
  );
}
