import type { Made, Records } from '../records/index.ts';

export type BackupKeeper = ReturnType<typeof createBackupKeeper>;

/** Sees to it that backups are made: each time enough jobs were closed, on quit, and when asked. One at a time. */
export function createBackupKeeper(tell: (notice: string) => void) {
  let running: Promise<Made> | null = null;
  let written = false;
  let closedSince: number | null = null;

  const make = (records: Records): Promise<Made> => {
    running ??= records.backups
      .make()
      .then((made) => {
        if (!made.ok) written = true;
        return made;
      })
      .finally(() => (running = null));
    written = false;
    closedSince = 0;
    return running;
  };
  const makeAndTell = async (records: Records): Promise<void> => {
    try {
      const made = await make(records);
      if (!made.ok) tell(`No backup was made. ${made.failure.message} ${made.failure.help}`);
    } catch (error) {
      // A bug, but nobody waits for this promise, and the work at the bench must go on.
      tell(`No backup was made. ${error instanceof Error ? error.message : String(error)}`);
    }
  };

  return {
    make,
    /** Something was recorded. */
    noteWritten: (): void => void (written = true),
    /** A job was closed: makes a backup beside the work where it is time for one. */
    noteClosed(records: Records): void {
      closedSince = closedSince === null ? closedSinceLast(records) : closedSince + 1;
      if (closedSince >= records.settings.value('backup-after-jobs')) void makeAndTell(records);
    },
    /** Waits for a backup under way, then makes one if anything was recorded since. */
    async finish(records: Records): Promise<void> {
      await running?.catch(() => undefined); // told by whoever started it
      if (written) await makeAndTell(records);
    },
    /** Waits for a backup under way. */
    settled: async (): Promise<void> => void (await running?.catch(() => undefined)),
  };
}

function closedSinceLast(records: Records): number {
  const [last] = records.backups.list();
  return Math.max(0, records.tallies().closed - (last?.closed ?? 0));
}
