import {
  openRecords,
  systemClock,
  type Clock,
  type Opening,
  type OpenOptions,
  type Records,
} from '../records/index.ts';
import { answer, guarded, unavailable, type Answer } from './answer.ts';
import { createLiveDrafts, type LiveDrafts } from './drafts/index.ts';
import { createLock, type Lock } from './lock/index.ts';
import { openReviewer, type Reviewer } from './review/index.ts';
import { createWalks, type Walks } from './walks.ts';

/** What the services work at: the records, open or not, the walks of the jobs and the drafts in hand. */
export interface Desk {
  readonly file: string;
  readonly host: 'desktop' | 'loopback';
  readonly walks: Walks;
  readonly drafts: LiveDrafts;
  /** What keeps publishing to those who know the shop's passphrase. */
  readonly lock: Lock;
  readonly clock: Clock;
  /** Makes reviews beside the work. */
  readonly reviewer: Reviewer;
  /** What the technician should be told that concerns no single question, such as a tree of the library that is broken. */
  readonly notices: string[];
  readonly opening: () => Opening;
  /** Closes the records if they are open, does what needs them closed, and opens them again. */
  reopen(between?: () => void): Promise<Opening>;
  /** Asks the records; where they cannot be used, or fail, the answer says so. */
  ask<T>(question: (records: Records) => Answer<T>): Answer<T>;
}

export interface DeskOptions extends OpenOptions {
  readonly host: Desk['host'];
  /** Done each time the records have been opened; gives what there is to tell. */
  readonly opened: (records: Records) => readonly string[];
}

/** Opens the records and sits down at them. A refusal to open is kept, and said to whoever asks. */
export function openDesk({ host, opened, ...options }: DeskOptions): Desk {
  const { file } = options;
  const walks = createWalks();
  const drafts = createLiveDrafts();
  const notices: string[] = [];
  const reviewer = openReviewer({
    file,
    ready: () => ask(() => answer(null)),
    expected: {
      isMissing: () => {
        const missing = ask(({ expected }) => answer(expected.isMissing()));
        return missing.ok && missing.value;
      },
      keep: (all) => void ask(({ expected }) => answer(expected.keep(all))),
    },
  });
  const open = (): Opening => {
    const opening = openRecords(options);
    if (!opening.ok) return opening;
    const told = guarded(file, () => answer(opened(opening.records)));
    notices.splice(0, Infinity, ...(told.ok ? told.value : [told.trouble.message]));
    reviewer.warmSoon();
    return opening;
  };
  let opening = open();
  const ask: Desk['ask'] = (question) => {
    if (!opening.ok) {
      const { trouble } = unavailable(file, opening);
      return { ok: false, trouble: { ...trouble, code: 'RECORDS_UNAVAILABLE' } };
    }
    const { records } = opening;
    return guarded(file, () => question(records));
  };
  return {
    file,
    host,
    walks,
    drafts,
    lock: createLock(ask),
    clock: options.clock ?? systemClock,
    reviewer,
    notices,
    opening: () => opening,
    async reopen(between) {
      await reviewer.pause();
      try {
        walks.clear();
        drafts.clear();
        if (opening.ok) await opening.records.close();
        between?.();
        opening = open();
        return opening;
      } finally {
        reviewer.resume();
      }
    },
    ask,
  };
}
