import { failureOf, type OpenRefusal, type RecordsFailure } from '../records/index.ts';

/** An expected failure, by the contract's code: what is wrong, where, and what to do. */
export interface Trouble {
  readonly code:
    | 'RECORDS_UNAVAILABLE'
    | 'NOT_FOUND'
    | 'EVENT_REFUSED'
    | 'STALE_SEQUENCE'
    | 'NAME_TAKEN'
    | 'DISK_FULL'
    | 'READ_ONLY'
    | 'DAMAGED'
    | 'STALE_DRAFT'
    | 'TOO_MUCH_AT_ONCE'
    | 'STALE_REVISION'
    | 'CHECK_FAILED'
    | 'LOCKED'
    | 'WRONG_PASSPHRASE'
    | 'TOO_MANY_TRIES'
    | 'REFUSED_FILE'
    | 'ID_TAKEN';
  readonly message: string;
  /** A JSON pointer into what was asked, or the database's file. */
  readonly where: string;
  readonly help: string;
}

export type Answer<T> =
  { readonly ok: true; readonly value: T } | { readonly ok: false; readonly trouble: Trouble };

/** What was asked for. */
export function answer<T>(value: T): Answer<T> {
  return { ok: true, value };
}

/** An expected failure; `where` is a JSON pointer into what was asked. */
export function trouble(
  code: Trouble['code'],
  where: string,
  message: string,
  help: string,
): { ok: false; trouble: Trouble } {
  return { ok: false, trouble: { code, where, message, help } };
}

/** Does what touches the records; what SQLite and the disk can be expected to refuse becomes an answer. */
export function guarded<T>(file: string, act: () => Answer<T>): Answer<T> {
  try {
    return act();
  } catch (error) {
    const failure = failureOf(error);
    if (failure === null) throw error;
    return unavailable(file, failure);
  }
}

/** The records' own failure in the contract's codes. */
export function unavailable(
  file: string,
  { code, message, help }: Pick<RecordsFailure | OpenRefusal, 'code' | 'message' | 'help'>,
): { ok: false; trouble: Trouble } {
  const known =
    code === 'DISK_FULL' || code === 'READ_ONLY' || code === 'DAMAGED' ? code : 'RECORDS_UNAVAILABLE';
  return trouble(known, file, message, help);
}

type ErrorMakers = {
  readonly [C in Trouble['code']]: (options: {
    message: string;
    data: { where: string; help: string };
  }) => Error;
};

/** The value, or the contract's typed error. */
export function give<T>(errors: ErrorMakers, given: Answer<T>): T {
  if (given.ok) return given.value;
  const { code, message, where, help } = given.trouble;
  throw errors[code]({ message, data: { where, help } });
}
