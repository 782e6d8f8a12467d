import { implement } from '@orpc/server';
import { contract } from '../../contract/index.ts';
import { answer, give } from '../answer.ts';
import type { Desk } from '../desk.ts';
import { draftInFull } from '../drafts/index.ts';
import type { BackupKeeper } from '../keep-backups.ts';
import { addPicture } from './add-picture.ts';
import { exportFile } from './export-file.ts';
import { importFile } from './import-file.ts';

/** Trees as files, in and out, over a desk. */
export function exchangeServices(desk: Desk, backups: BackupKeeper) {
  const { exchange } = implement(contract);
  return {
    importFile: exchange.importFile.handler(({ input, errors }) => {
      const begun = desk.ask((records) => {
        const stored = importFile(records, input);
        return stored.ok ? answer(draftInFull(records, desk.drafts, stored.value)) : stored;
      });
      const draft = give(errors, begun);
      backups.noteWritten();
      return draft;
    }),
    exportFile: exchange.exportFile.handler(({ input, errors }) =>
      give(
        errors,
        desk.ask((records) => exportFile(records, desk.drafts, input)),
      ),
    ),
  };
}

/** Taking pictures into drafts, over a desk. */
export function pictureServices(desk: Desk, backups: BackupKeeper) {
  const { drafts } = implement(contract);
  return {
    addPicture: drafts.addPicture.handler(({ input, errors }) => {
      const added = give(
        errors,
        desk.ask((records) => addPicture(records, input)),
      );
      backups.noteWritten();
      return added;
    }),
  };
}
