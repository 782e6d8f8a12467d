import type { FactNames } from './fact.ts';

/** Numbers for the kinds of job (symptom, finding, advice taken or not); those of a symptom follow each other. */
export interface Kinds {
  readonly count: number;
  /** By a symptom's code the first of its kinds; one more entry at the end. */
  readonly first: Uint32Array;
  /** By a finding's code, what it adds to that; 0, none, has a place of its own. One more of it is with advice taken. */
  readonly place: Uint32Array;
}

export function kindsOf({ symptoms, findings }: FactNames): Kinds {
  const inTree = new Map<string, number>();
  const place = Uint32Array.from(findings, ({ tree }, code) => {
    if (code === 0) return 0;
    const next = (inTree.get(tree) ?? 0) + 1;
    inTree.set(tree, next);
    return 2 * next;
  });
  let count = 0;
  const first = Uint32Array.from({ length: symptoms.length + 1 }, (_, code) => {
    const start = count;
    if (code < symptoms.length) count += 2 * (1 + (inTree.get(symptoms[code]?.tree ?? '') ?? 0));
    return start;
  });
  return { count, first, place };
}
