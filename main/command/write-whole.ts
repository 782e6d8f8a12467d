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
import { trouble, value, type Or } from './outcome.ts';

/**
 * Writes `content` to `out`, which is replaced whole or left as it was. The tree document `file` that it comes from is
 * never written over, nor anything that is no plain file.
 */
export function writtenWhole(file: string, out: string, content: string): Or<null> {
  return tried(out, () => {
    const earlier = earlierAt(file, out);
    if (earlier.ok) replace(out, earlier.value, content);
    return earlier.ok ? value(null) : earlier;
  });
}

/** Whether {@link writtenWhole} may write there as far as can be said beforehand, so that nothing long is done in vain. */
export function mayBeWritten(file: string, out: string): Or<null> {
  return tried(out, () => {
    const earlier = earlierAt(file, out);
    if (!earlier.ok) return earlier;
    if (earlier.value !== undefined) accessSync(out, constants.W_OK);
    accessSync(dirname(out), constants.W_OK);
    return value(null);
  });
}

/** What stands at `out` now, if anything; refused where it must not be written over. */
function earlierAt(file: string, out: string): Or<Stats | undefined> {
  const earlier = lstatSync(out, { throwIfNoEntry: false });
  if (earlier?.isFile() === false) return notWritten(out, `it is ${kindOf(earlier)}, not a file`);
  if (earlier !== undefined && realpathSync(out) === realpathSync(file)) {
    return notWritten(out, 'it is the tree document itself');
  }
  return value(earlier);
}

function tried<T>(out: string, work: () => Or<T>): Or<T> {
  try {
    return work();
  } catch (cause) {
    const message = cause instanceof Error ? cause.message : String(cause);
    // What follows the first comma is the system call and the name of the unfinished file.
    const [reason = message] = message.split(', ');
    return notWritten(out, reason);
  }
}

/** Written under another name in the same folder and only then given its own, so that a full disk costs no earlier file. */
function replace(out: string, earlier: Stats | undefined, content: string): void {
  // Renaming asks leave of the folder alone: a file that is protected from writing must not fall to it.
  if (earlier !== undefined) accessSync(out, constants.W_OK);
  const unfinished = join(dirname(out), `.ohmward-export-${randomUUID()}`);
  try {
    const descriptor = openSync(unfinished, 'wx', earlier?.mode);
    try {
      writeFileSync(descriptor, content);
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
