import { implement } from '@orpc/server';
import { contract } from '../contract/index.ts';
import type { Records, StoredDraft } from '../records/index.ts';
import { answer, give, trouble, type Answer } from './answer.ts';
import { workingTechnician } from './append.ts';
import type { Desk } from './desk.ts';
import {
  appendEntries,
  draftHistory,
  draftInFull,
  draftInHand,
  draftPicture,
  draftSummary,
  publishDraft,
  staleDraft,
  startDraft,
} from './drafts/index.ts';
import type { BackupKeeper } from './keep-backups.ts';
import { publishAgain } from './publish-again.ts';

/** Drafts over a desk. */
export function draftServices(desk: Desk, backups: BackupKeeper) {
  const { drafts } = implement(contract);
  const shown = (records: Records, stored: Answer<StoredDraft>) =>
    stored.ok ? answer(draftInFull(records, desk.drafts, stored.value)) : stored;
  const written = <T>(value: T): T => {
    backups.noteWritten();
    return value;
  };
  return {
    list: drafts.list.handler(({ errors }) => {
      const listed = desk.ask((records) =>
        answer(records.drafts.inHand().map((stored) => draftSummary(records, desk.drafts, stored))),
      );
      return give(errors, listed);
    }),
    start: drafts.start.handler(({ input: { technicianId, from }, errors }) => {
      const begun = desk.ask((records) => shown(records, startDraft(records, technicianId, from)));
      return written(give(errors, begun));
    }),
    get: drafts.get.handler(({ input, errors }) => {
      const found = desk.ask((records) => shown(records, draftInHand(records, input.draftId)));
      return give(errors, found);
    }),
    append: drafts.append.handler(({ input, errors }) => {
      const appended = desk.ask((records) => appendEntries(records, desk.drafts, input));
      return written(give(errors, appended));
    }),
    discard: drafts.discard.handler(({ input, errors }) => {
      const discarded = desk.ask((records) => discard(records, input));
      desk.drafts.drop(input.draftId);
      return written(give(errors, discarded));
    }),
    picture: drafts.picture.handler(({ input: { draftId, file }, errors }) => {
      const found = desk.ask((records) => {
        const stored = draftInHand(records, draftId);
        return stored.ok ? draftPicture(records, stored.value, file) : stored;
      });
      return give(errors, found);
    }),
    history: drafts.history.handler(async ({ input, errors, signal }) =>
      give(errors, await draftHistory(desk, input.draftId, signal)),
    ),
    publish: drafts.publish.handler(({ input: { key, ...request }, errors }) => {
      const published = desk.ask((records) => {
        const pass = desk.lock.pass(records, key);
        return pass.ok ? publishDraft(records, desk.drafts, request) : pass;
      });
      const summary = written(give(errors, published));
      desk.reviewer.warmSoon();
      return summary;
    }),
  };
}

/** Revisions over a desk. */
export function revisionServices(desk: Desk, backups: BackupKeeper) {
  const { revisions } = implement(contract);
  return {
    list: revisions.list.handler(({ input, errors }) => {
      const listed = desk.ask((records) =>
        ofTree(records, input.treeId, () => records.revisions.of(input.treeId)),
      );
      return give(errors, listed);
    }),
    publishAgain: revisions.publishAgain.handler(({ input: { key, ...request }, errors }) => {
      const published = desk.ask((records) => {
        const pass = desk.lock.pass(records, key);
        return pass.ok ? publishAgain(records, request) : pass;
      });
      const summary = give(errors, published);
      backups.noteWritten();
      desk.reviewer.warmSoon();
      return summary;
    }),
  };
}

/** What closed jobs have shown, over a desk. */
export function pastServices(desk: Desk) {
  const { history } = implement(contract);
  return {
    readings: history.readings.handler(({ input: { treeId, test, limit }, errors }) => {
      const read = desk.ask((records) =>
        ofTree(records, treeId, () => records.past.readings(treeId, test, limit)),
      );
      return give(errors, read);
    }),
    jobs: history.jobs.handler(({ input: { treeId, limit }, errors }) => {
      const read = desk.ask((records) => ofTree(records, treeId, () => records.past.jobs(treeId, limit)));
      return give(errors, read);
    }),
  };
}

/** The lock of publishing over a desk. */
export function lockServices(desk: Desk, backups: BackupKeeper) {
  const { lock } = implement(contract);
  return {
    state: lock.state.handler(({ errors }) => give(errors, desk.lock.state())),
    set: lock.set.handler(async ({ input: { passphrase, former }, errors }) => {
      const set = give(errors, await desk.lock.set(passphrase, former));
      backups.noteWritten();
      return set;
    }),
    unlock: lock.unlock.handler(async ({ input, errors }) =>
      give(errors, await desk.lock.unlock(input.passphrase)),
    ),
  };
}

function discard(
  records: Records,
  { draftId, technicianId }: { readonly draftId: string; readonly technicianId: string },
): Answer<{ draftId: string }> {
  const technician = workingTechnician(records, technicianId);
  if (!technician.ok) return technician;
  const stored = draftInHand(records, draftId);
  if (!stored.ok) return stored;
  const ended = records.drafts.end({ draftId, how: 'discarded', revisionId: null, technicianId });
  return ended ? answer({ draftId }) : staleDraft();
}

function ofTree<T>(records: Records, treeId: string, read: () => T): Answer<T> {
  if (records.trees.currentId(treeId) !== null) return answer(read());
  return trouble('NOT_FOUND', '/treeId', 'There is no such tree.', 'Read the list again and choose from it.');
}
