import { sameMeaning, type Place } from '../../document/index.ts';
import type { JsonObject } from '../json.ts';
import type { Clip } from './clip.ts';

/** A paste under way: what it puts in, and under which ids. */
export interface Pasting {
  readonly document: JsonObject;
  readonly clip: Clip;
  /** The symptom whose path the steps go into. */
  readonly path: string | null;
  /** What each test and finding of the clip is called in the document. */
  readonly tests: Map<string, string>;
  readonly findings: Map<string, string>;
  readonly symptoms: Map<string, string>;
  /** By `SYMPTOM/STEP` of the clip. */
  readonly steps: Map<string, string>;
  readonly added: {
    readonly tests: Map<string, JsonObject>;
    readonly findings: Map<string, JsonObject>;
    /** Axes of the document with the states put in, and axes that are new. */
    readonly bench: Map<string, JsonObject>;
  };
  /** States put in, as `AXIS/STATE`. */
  readonly states: Set<string>;
  readonly notes: string[];
  /** Branches that lead to nothing here. */
  open: number;
  /** Expectations, disturbances, weights and ways on that name nothing here. */
  dropped: number;
}

/**
 * Under which id a part is to stand among others: its own where that is free or holds just this, else the first of `ID-2`,
 * `ID-3` … that is free or does.
 */
export function idFor(
  id: string,
  part: JsonObject,
  group: string,
  others: (id: string) => JsonObject | undefined,
): { readonly id: string; readonly isNew: boolean } {
  for (let count = 1; ; count += 1) {
    const name = count === 1 ? id : `${id}-${String(count)}`;
    const other = others(name);
    const place: Place = [group, name];
    if (other === undefined) return { id: name, isNew: true };
    if (sameMeaning(other, part, place)) return { id: name, isNew: false };
  }
}

/** The id itself, or the first of `ID-2`, `ID-3` … that is not taken. */
export function freeId(id: string, isTaken: (id: string) => boolean): string {
  let count = 1;
  let name = id;
  while (isTaken(name)) {
    count += 1;
    name = `${id}-${String(count)}`;
  }
  return name;
}
