/** What closed jobs with a confirmed finding have shown, for one tree. Absent entries are zero. */
export interface History {
  /** n(s,f): confirmed jobs by symptom and finding (`unlisted` included). */
  readonly findings: Readonly<Record<string, Readonly<Record<string, number>>>>;
  /** n(t,f,r): by test, finding and result. */
  readonly results: Readonly<Record<string, Readonly<Record<string, Readonly<Record<string, number>>>>>>;
  /** Remedies whose proof was made, by finding: how many, and how many of them mended the unit. */
  readonly remedies: Readonly<Record<string, { readonly tried: number; readonly mended: number }>>;
}

export const NO_HISTORY: History = { findings: {}, results: {}, remedies: {} };
