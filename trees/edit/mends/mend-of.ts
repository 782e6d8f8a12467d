import { pathOf, type Problem } from '../../document/index.ts';
import type { Change, Path } from '../change.ts';
import { isList, type DraftDocument, type Json } from '../json.ts';
import { mendBands } from './bands.ts';
import { mendBranches } from './branches.ts';
import { dropBranch, dropEntry, dropExpectation, dropFirst, dropRepeat, dropWeight } from './dropped.ts';
import { scaleShares } from './shares.ts';

/** What one press would do about a problem, in words, and the changes that do it. */
export interface Mend {
  readonly what: string;
  readonly changes: readonly Change[];
}

/** What mends a problem at a place of a document; null where that is not certain there. */
export type MendAt = (document: DraftDocument, path: Path) => Mend | null;

/**
 * The mend of a problem that the checker has with a document; null where none is certain. A mend invents nothing: it takes out
 * what cannot count, joins bands where only one limit can be meant, and scales shares. It takes the problem away and brings no
 * error. What stands before an act to keep somebody from harm, cautions and interlocks, is never mended by itself.
 */
export function mendOf(document: DraftDocument, { rule, at }: Problem): Mend | null {
  const path = typedPath(document, pathOf(at));
  for (const [rules, place, mend] of MENDS) {
    if (rules.includes(rule) && fits(path, place)) return mend(document, path);
  }
  return null;
}

/** Rules, the places they are mended at (`*` for any id or index), and how. */
const MENDS: readonly (readonly [rules: readonly string[], place: string, mend: MendAt])[] = [
  [['band-gap', 'band-overlap'], 'tests * results * band', mendBands],
  [['missing-branch'], 'symptoms * steps * then', mendBranches],
  [['shares-sum'], 'findings * expects *', scaleShares],
  [['unknown-test', 'unknown-result'], 'findings * expects *', dropExpectation],
  [['unknown-result'], 'findings * expects * *', dropExpectation],
  [['unknown-test'], 'findings * prove *', dropEntry],
  [['unknown-test'], 'findings * remedy disturbs *', dropEntry],
  [['unknown-finding'], 'symptoms * weights *', dropWeight],
  [['unknown-result'], 'symptoms * steps * then *', dropBranch],
  [['missing-steps'], 'symptoms * first', dropFirst],
  [['duplicate-entry'], 'unit boards *', dropRepeat],
  [['duplicate-entry'], 'findings * prove *', dropRepeat],
  [['duplicate-entry'], 'findings * remedy disturbs *', dropRepeat],
];

function fits(path: Path, place: string): boolean {
  const keys = place.split(' ');
  return keys.length === path.length && keys.every((key, depth) => key === '*' || key === path[depth]);
}

/** A path with numbers where it goes through lists. */
function typedPath(document: DraftDocument, path: readonly string[]): Path {
  let value: Json | undefined = document;
  return path.map((key) => {
    if (isList(value)) {
      value = value[Number(key)];
      return Number(key);
    }
    value =
      typeof value === 'object' && value !== null && Object.hasOwn(value, key)
        ? (value as Readonly<Record<string, Json>>)[key]
        : undefined;
    return key;
  });
}
