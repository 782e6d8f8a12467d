import type { Chosen, ChosenBlock } from './choose.ts';
import type { FactNames } from './fact.ts';
import { groupTimes, type GroupedTimes } from './grouped-times.ts';

/** Numbers for the kinds of job (symptom and finding): those of a symptom, which follow each other, begin at its first. */
export interface Kinds {
  readonly count: number;
  /** By a symptom's code; one more entry at the end. */
  readonly first: Uint32Array;
  /** By a finding's code its place in its tree; 0, none, has that of no finding. */
  readonly place: Uint32Array;
}

export function kindsOf({ symptoms, findings }: FactNames): Kinds {
  const inTree = new Map<string, number>();
  const place = Uint32Array.from(findings, ({ tree }, code) => {
    if (code === 0) return 0;
    const next = (inTree.get(tree) ?? 0) + 1;
    inTree.set(tree, next);
    return next;
  });
  let count = 0;
  const first = Uint32Array.from({ length: symptoms.length + 1 }, (_, code) => {
    const start = count;
    count += 1 + (inTree.get(symptoms[code]?.tree ?? '') ?? 0);
    return start;
  });
  return { count, first, place };
}

/** Times to the finding: those of kind k without advice taken are group 2k, those with 2k + 1. */
export function timesByKind({ blocks }: Chosen, kinds: Kinds): GroupedTimes {
  return groupTimes(blocks, 'toFinding', (block, groups) => putKinds(block, kinds, groups), 2 * kinds.count);
}

function putKinds({ columns, rows }: ChosenBlock, { first, place }: Kinds, groups: Uint32Array): void {
  const { symptom, finding, advised } = columns;
  for (let at = 0; at < rows.length; at += 1) {
    const row = rows[at] ?? 0;
    const kind = (first[symptom[row] ?? 0] ?? 0) + (place[finding[row] ?? 0] ?? 0);
    groups[at] = 2 * kind + ((advised[row] ?? 0) > 0 ? 1 : 0);
  }
}
