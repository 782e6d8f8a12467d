import { restoreBackup, systemClock, type RecordsFailure } from '../records/index.ts';
import { answer, trouble, unavailable, type Answer } from './answer.ts';
import type { Desk } from './desk.ts';

/** Puts a backup in the database's place and opens it. Where that fails the records are opened again as they were. */
export async function restore(desk: Desk, backup: string): Promise<Answer<null>> {
  const opening = desk.opening();
  const known = opening.ok ? opening.records.backups.list() : opening.backups;
  if (!known.some(({ file }) => file === backup)) {
    return trouble(
      'NOT_FOUND',
      '/file',
      'There is no such backup.',
      'Choose one of the backups in the list.',
    );
  }
  let failure: RecordsFailure | null = null;
  await desk.reopen(() => {
    const restored = restoreBackup(desk.file, backup, systemClock);
    if (!restored.ok) failure = restored.failure;
  });
  return failure === null ? answer(null) : unavailable(desk.file, failure);
}
