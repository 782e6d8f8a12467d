import { oc } from '@orpc/contract';
import { z } from 'zod';

/** What, where and what to do: goes with every expected failure. */
const troubleSchema = z.strictObject({ where: z.string(), help: z.string() });
const trouble = { data: troubleSchema };

/**
 * Expected failures of the services, by stable code. `message` says what is wrong, `data.where` where, `data.help` what to do.
 */
const failures = {
  /** The database cannot be used at all; `shop.open` says why and which backups there are. */
  RECORDS_UNAVAILABLE: trouble,
  NOT_FOUND: trouble,
  /** The chart does not take this event here, or the draft this entry; nothing was recorded. */
  EVENT_REFUSED: trouble,
  /** Somebody else has added to the job since; read it again. Nothing was recorded. */
  STALE_SEQUENCE: trouble,
  NAME_TAKEN: trouble,
  DISK_FULL: trouble,
  READ_ONLY: trouble,
  DAMAGED: trouble,
  /** Somebody else has added to the draft since; read it again. Nothing was recorded. */
  STALE_DRAFT: trouble,
  /** The tree has a newer published revision than the one that the draft stands on, or that was shown. Nothing was published. */
  STALE_REVISION: trouble,
  /** The tree has errors, or a picture it shows is not there. Nothing was published. */
  CHECK_FAILED: trouble,
  /** Publishing takes a passphrase; `lock.unlock` gives a key for it. */
  LOCKED: trouble,
  WRONG_PASSPHRASE: trouble,
  TOO_MANY_TRIES: trouble,
  /** A file or picture is not what it should be; nothing was kept of it. */
  REFUSED_FILE: trouble,
  /** The shop has a tree, or a draft of a new one, of that id. */
  ID_TAKEN: trouble,
} as const;

/** What every procedure of the contract is made from. */
export const base = oc.errors(failures);
