import type { PublishingLock, Records } from '../../records/index.ts';
import { answer, trouble, type Answer } from '../answer.ts';
import { createKeys, KEY_MINUTES } from './keys.ts';
import { lockBy, opens } from './passphrase.ts';
import { createTries } from './tries.ts';

/** Asks the records, as a desk does; they may be others at the next question. */
export type AskRecords = <T>(question: (records: Records) => Answer<T>) => Answer<T>;

export type Lock = ReturnType<typeof createLock>;

/**
 * The passphrase that publishing takes, where the shop has set one. It keeps a tree from being published by whoever just
 * sits at the bench; whoever can write the database's file is not kept out by it. `now` is in milliseconds and never runs
 * backwards.
 */
export function createLock(ask: AskRecords, now: () => number = () => performance.now()) {
  const keys = createKeys(now);
  const tries = createTries(now);
  const kept = (): Answer<PublishingLock | null> =>
    ask(({ settings }) => answer(settings.value('publishing-lock')));
  const tried = async (passphrase: string, held: PublishingLock, where: string): Promise<Answer<null>> => {
    const right = await tries.try(() => opens(passphrase, held));
    return right === null ? tooMany(where) : right ? answer(null) : wrong(where);
  };
  return {
    state(): Answer<{ readonly set: boolean }> {
      const held = kept();
      return held.ok ? answer({ set: held.value !== null }) : held;
    },
    /** Sets another passphrase, or takes it away (null); where one is set, `former` must be it. Keys given before are no good then. */
    async set(passphrase: string | null, former = ''): Promise<Answer<{ readonly set: boolean }>> {
      const held = kept();
      if (!held.ok) return held;
      const may = held.value === null ? answer(null) : await tried(former, held.value, '/former');
      if (!may.ok) return may;
      const made = passphrase === null ? null : await lockBy(passphrase);
      return ask(({ settings }) => {
        // Somebody else may have set one while this one was being worked out; theirs holds then.
        if (settings.value('publishing-lock')?.salt !== held.value?.salt) return wrong('/former');
        if (made !== null || held.value !== null) settings.set('publishing-lock', made);
        return answer({ set: made !== null });
      });
    },
    /** Gives a key for the passphrase. */
    async unlock(passphrase: string): Promise<Answer<{ readonly key: string; readonly minutes: number }>> {
      const held = kept();
      if (!held.ok) return held;
      if (held.value === null) return notSet();
      const right = await tried(passphrase, held.value, '/passphrase');
      return right.ok ? answer({ key: keys.give(held.value.salt), minutes: KEY_MINUTES }) : right;
    },
    /** Whether there is no lock, or the key is good for it; using it makes it last. */
    pass({ settings }: Records, key: string | undefined): Answer<null> {
      const held = settings.value('publishing-lock');
      if (held === null || (key !== undefined && keys.use(key, held.salt))) return answer(null);
      return trouble(
        'LOCKED',
        '/key',
        'Publishing is locked. Nothing was published.',
        'Enter the shop’s passphrase for publishing, or have somebody publish it who knows it.',
      );
    },
  };
}

function wrong(where: string): Answer<never> {
  const message = 'That is not the passphrase.';
  return trouble('WRONG_PASSPHRASE', where, message, 'Type it again; capitals and spaces count.');
}

function tooMany(where: string): Answer<never> {
  const message = 'There were too many wrong passphrases within a minute.';
  return trouble('TOO_MANY_TRIES', where, message, 'Wait a minute, then type it again.');
}

function notSet(): Answer<never> {
  const message = 'No passphrase is set: publishing is not locked.';
  return trouble('NOT_FOUND', '/passphrase', message, 'Publish without one.');
}
