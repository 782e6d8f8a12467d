import { implement } from '@orpc/server';
import { contract } from '../contract/index.ts';
import type { Records } from '../records/index.ts';
import { answer, give, trouble, unavailable, type Answer } from './answer.ts';
import { append } from './append.ts';
import type { Desk } from './desk.ts';
import { draftServices, lockServices, pastServices, revisionServices } from './editing-services.ts';
import { exchangeServices, pictureServices } from './exchange/index.ts';
import type { BackupKeeper } from './keep-backups.ts';
import { restore } from './restore.ts';
import { reviewServices } from './review/index.ts';
import { shopState, shown } from './shop.ts';
import { startJob } from './start-job.ts';

/** The contract's implementation over a desk. Nothing that a host passes on is trusted beyond its schema. */
export function createServices(desk: Desk, backups: BackupKeeper) {
  const os = implement(contract);
  return os.router({
    shop: shopServices(desk, backups),
    trees: treeServices(desk),
    history: {
      of: os.history.of.handler(({ input, errors }) =>
        give(
          errors,
          desk.ask((records) => historyOf(records, input.treeId)),
        ),
      ),
      ...pastServices(desk),
    },
    drafts: { ...draftServices(desk, backups), ...pictureServices(desk, backups) },
    exchange: exchangeServices(desk, backups),
    revisions: revisionServices(desk, backups),
    lock: lockServices(desk, backups),
    review: reviewServices(desk),
    jobs: jobServices(desk, backups),
    backups: backupServices(desk, backups),
  });
}

function shopServices(desk: Desk, backups: BackupKeeper) {
  const { shop } = implement(contract);
  const written = <T>(value: T): T => {
    backups.noteWritten();
    return value;
  };
  return {
    open: shop.open.handler(async () => {
      if (!desk.opening().ok) await desk.reopen();
      return shopState(desk);
    }),
    addTechnician: shop.addTechnician.handler(({ input, errors }) => {
      const added = desk.ask((records) => orTaken(records.technicians.add(input.name), 'technician'));
      return written(give(errors, added));
    }),
    retireTechnician: shop.retireTechnician.handler(({ input, errors }) => {
      const retired = desk.ask((records) =>
        orMissing(records.technicians.retire(input.id), '/id', 'technician'),
      );
      return written(give(errors, retired));
    }),
    addInstrument: shop.addInstrument.handler(({ input, errors }) => {
      const added = desk.ask((records) => orTaken(records.instruments.add(input), 'instrument'));
      return written(give(errors, added));
    }),
    retireInstrument: shop.retireInstrument.handler(({ input, errors }) => {
      const retired = desk.ask((records) =>
        orMissing(records.instruments.retire(input.id), '/id', 'instrument'),
      );
      return written(give(errors, retired));
    }),
    setHourlyRate: shop.setHourlyRate.handler(({ input: { rate }, errors }) => {
      const set = desk.ask(({ settings }) => {
        settings.set('hourly-rate', rate);
        return answer({ rate: settings.value('hourly-rate') });
      });
      return written(give(errors, set));
    }),
  };
}

function treeServices(desk: Desk) {
  const { trees } = implement(contract);
  return {
    list: trees.list.handler(({ errors }) =>
      give(
        errors,
        desk.ask(({ trees }) => answer([...trees.list()])),
      ),
    ),
    revision: trees.revision.handler(({ input, errors }) => {
      const found = desk.ask(({ trees }) =>
        orMissing(trees.find(input.revisionId), '/revisionId', 'revision of a tree'),
      );
      return give(errors, found);
    }),
    picture: trees.picture.handler(({ input, errors }) => {
      const { revisionId, file } = input;
      return give(
        errors,
        desk.ask(({ pictures }) => orMissing(pictures.find(revisionId, file), '/file', 'picture')),
      );
    }),
  };
}

function jobServices(desk: Desk, backups: BackupKeeper) {
  const { jobs } = implement(contract);
  return {
    list: jobs.list.handler(({ input, errors }) =>
      give(
        errors,
        desk.ask(({ jobs }) => answer(jobs.list(input))),
      ),
    ),
    ofUnit: jobs.ofUnit.handler(({ input, errors }) =>
      give(
        errors,
        desk.ask(({ jobs }) => answer(jobs.ofUnit(input.family, input.serial.trim()))),
      ),
    ),
    start: jobs.start.handler(({ input, errors }) => {
      const job = give(
        errors,
        desk.ask((records) => startJob(records, input, false)),
      );
      backups.noteWritten();
      return { job, events: [] };
    }),
    get: jobs.get.handler(({ input, errors }) =>
      give(
        errors,
        desk.ask((records) => jobWithEvents(records, input.jobId)),
      ),
    ),
    append: jobs.append.handler(({ input, errors }) => {
      const { stored, closed } = give(
        errors,
        desk.ask((records) => append(records, desk.walks, input)),
      );
      backups.noteWritten();
      const opening = desk.opening();
      if (closed && opening.ok) {
        backups.noteClosed(opening.records);
        desk.reviewer.warmSoon();
      }
      return stored;
    }),
  };
}

function backupServices(desk: Desk, keeper: BackupKeeper) {
  const { backups } = implement(contract);
  return {
    make: backups.make.handler(async ({ errors }) => {
      const records = give(
        errors,
        desk.ask((open) => answer(open)),
      );
      const made = await keeper.make(records);
      return give(errors, made.ok ? answer(shown(made.backup)) : unavailable(desk.file, made.failure));
    }),
    restore: backups.restore.handler(async ({ input, errors }) => {
      await keeper.settled();
      give(errors, await restore(desk, input.file));
      return shopState(desk);
    }),
  };
}

function historyOf(records: Records, treeId: string) {
  const known = records.trees.marks(treeId).length > 0;
  return orMissing(known ? records.historyOf(treeId) : null, '/treeId', 'tree');
}

function jobWithEvents(records: Records, jobId: string) {
  const job = records.jobs.find(jobId);
  return orMissing(job && { job, events: records.events.of(jobId) }, '/jobId', 'job');
}

function orMissing<T>(value: T | null, where: string, what: string): Answer<T> {
  if (value !== null) return answer(value);
  return trouble('NOT_FOUND', where, `There is no such ${what}.`, 'Read the list again and choose from it.');
}

function orTaken<T>(value: T | null, what: string): Answer<T> {
  if (value !== null) return answer(value);
  return trouble(
    'NAME_TAKEN',
    '/name',
    `There is ${what === 'instrument' ? 'an' : 'a'} ${what} of that name.`,
    'Choose another name.',
  );
}
