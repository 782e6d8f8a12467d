import { oc } from '@orpc/contract';
import { z } from 'zod';

/** What, where and what to do: goes with every expected failure. */
const troubleSchema = z.strictObject({ where: z.string(), help: z.string() });

/** With the HTTP status (RFC 9110; RFC 4918 for 423 and 507) that the loopback host answers with. */
const trouble = (status: number) => ({ status, data: troubleSchema });

/**
 * Expected failures of the services, by stable code. `message` says what is wrong, `data.where` where, `data.help` what to do.
 */
const failures = {
  /** The database cannot be used at all; `shop.open` says why and which backups there are. */
  RECORDS_UNAVAILABLE: trouble(503),
  NOT_FOUND: trouble(404),
  /** The chart does not take this event here, or the draft this entry; nothing was recorded. */
  EVENT_REFUSED: trouble(422),
  /** Somebody else has added to the job since; read it again. Nothing was recorded. */
  STALE_SEQUENCE: trouble(409),
  NAME_TAKEN: trouble(409),
  DISK_FULL: trouble(507),
  READ_ONLY: trouble(503),
  DAMAGED: trouble(503),
  /** Somebody else has added to the draft since; read it again. Nothing was recorded. */
  STALE_DRAFT: trouble(409),
  /** It would keep everybody else waiting for too long; send fewer entries. Nothing was recorded. */
  TOO_MUCH_AT_ONCE: trouble(413),
  /** The tree has a newer published revision than the one that the draft stands on, or that was shown. Nothing was published. */
  STALE_REVISION: trouble(409),
  /** The tree has errors, or a picture it shows is not there. Nothing was published. */
  CHECK_FAILED: trouble(422),
  /** Publishing takes a passphrase; `lock.unlock` gives a key for it. */
  LOCKED: trouble(423),
  WRONG_PASSPHRASE: trouble(422),
  TOO_MANY_TRIES: trouble(429),
  /** A file or picture is not what it should be; nothing was kept of it. */
  REFUSED_FILE: trouble(422),
  /** The shop has a tree, or a draft of a new one, of that id. */
  ID_TAKEN: trouble(409),
} as const;

/** What every procedure of the contract is made from. */
export const base = oc.errors(failures);
