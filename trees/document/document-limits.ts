/** How large a tree document may be: far above any that a shop works with, below what would hang whatever reads it. */
export const DOCUMENT_LIMITS = {
  /** Bytes of the file, or characters where text is given. */
  bytes: 5 * 1024 * 1024,
  /** Far deeper than any tree document goes (9), far less than what would exhaust a recursive reader. */
  levels: 64,
  /** Entries of one record or list. */
  entries: 10_000,
  /** Values altogether. */
  values: 400_000,
} as const;
