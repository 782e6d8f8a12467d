import type { ShopState } from '../contract/index.ts';
import type { Desk } from './desk.ts';

/** What the app shows first: the shop as the records have it, or why they cannot be used. */
export function shopState({ file, host, notices, opening }: Desk): ShopState {
  const opened = opening();
  if (!opened.ok) {
    const { code, message, help, backups } = opened;
    return { state: 'unavailable', database: file, code, message, help, backups: backups.map(shown) };
  }
  const { technicians, instruments, settings, tallies, integrity, backups } = opened.records;
  const { open, closed, invented } = tallies();
  return {
    state: 'ready',
    database: file,
    host,
    invented: invented > 0,
    technicians: [...technicians.list()],
    instruments: [...instruments.list()],
    hourlyRate: settings.value('hourly-rate'),
    openJobs: open,
    closedJobs: closed,
    integrity: integrity.state(),
    backups: backups.list().map(shown),
    notices: [...notices],
  };
}

/** A backup as the contract has it. */
export function shown<B extends { file: string; madeAt: string; bytes: number; jobs: number }>(backup: B) {
  const { file, madeAt, bytes, jobs } = backup;
  return { file, madeAt, bytes, jobs };
}
