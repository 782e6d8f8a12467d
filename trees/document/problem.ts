/** One thing wrong with a document: which rule, where (an RFC 6901 JSON pointer), what, and what to do about it. */
export interface Problem {
  readonly severity: 'error' | 'warning';
  readonly rule: string;
  readonly at: string;
  readonly message: string;
  readonly help: string;
}
