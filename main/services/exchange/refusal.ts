/** A file that was not taken: what is wrong with it, in plain words, and what to do. */
export interface Refusal {
  readonly ok: false;
  readonly message: string;
  readonly help: string;
}

/** What came of a file from outside. Files are refused as values; nothing here throws for what a file holds. */
export type Taken<T> = { readonly ok: true; readonly value: T } | Refusal;

/** What a file was taken as. */
export function taken<T>(value: T): { readonly ok: true; readonly value: T } {
  return { ok: true, value };
}

/** A refusal: what is wrong, and what to do. */
export function refuse(message: string, help: string): Refusal {
  return { ok: false, message, help };
}
