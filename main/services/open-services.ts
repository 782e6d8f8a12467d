import { type OpenOptions } from '../records/index.ts';
import { createServices } from './create-services.ts';
import { openDesk, type Desk } from './desk.ts';
import { createBackupKeeper } from './keep-backups.ts';
import { addLibrary } from './library.ts';

export interface ServicesOptions extends OpenOptions {
  readonly host: Desk['host'];
  /** Folder of the trees to be added at opening; the library we ship if absent. */
  readonly library?: URL;
}

export interface Services {
  readonly router: ReturnType<typeof createServices>;
  readonly desk: Desk;
  /** Waits for a backup that is being made. */
  settled(): Promise<void>;
  /** Makes the backup on quit, if anything was recorded, and closes the records. */
  close(): Promise<void>;
}

/** Opens the records and the services over them. Records that cannot be opened are said by `shop.open`; this does not fail. */
export async function openServices({ host, library, ...options }: ServicesOptions): Promise<Services> {
  const desk = openDesk({ ...options, host, opened: (records) => addLibrary(records, library) });
  const backups = createBackupKeeper((notice) => void desk.notices.push(notice));
  return {
    router: createServices(desk, backups),
    desk,
    settled: backups.settled,
    async close() {
      await desk.reviewer.end();
      const opening = desk.opening();
      if (!opening.ok) return;
      await backups.finish(opening.records);
      await opening.records.close();
    },
  };
}
