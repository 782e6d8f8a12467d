import { isOneStatement, pointerOf, type Place } from '../../document/index.ts';
import type { Json } from '../json.ts';

/** Whose of two versions: what has been published meanwhile, or what the draft has. */
export type Side = 'theirs' | 'yours';

/** Whose version stands, by the `at` of conflicts; yours where nothing is chosen. */
export type Choices = Readonly<Record<string, Side>>;

/** A field that both sides have changed, each otherwise; what a side does not have is absent. Places are the base's. */
export interface ConflictField {
  readonly at: string;
  readonly base?: Json;
  readonly theirs?: Json;
  readonly yours?: Json;
}

/**
 * Something to be decided: one field, or several that only make sense together, such as the limits of a test's bands.
 * `at` is the field's pointer, or a pattern for those together, and names this conflict among all of a merge.
 */
export interface Conflict {
  readonly at: string;
  readonly part: string;
  readonly fields: readonly ConflictField[];
}

/** What a merge goes by and what it gathers. */
export interface Merging {
  readonly choices: Choices;
  readonly conflicts: Map<string, Conflict>;
}

export interface Versions<Value> {
  readonly base: Value;
  readonly theirs: Value;
  readonly yours: Value;
}

/** Notes a conflict at a place and says whose version stands. */
export function decided(merging: Merging, versions: Versions<Json | undefined>, place: Place): Side {
  return decidedAs(merging, versions, place, conflictAt(place));
}

/** {@link decided} for a conflict of another name than its place has. */
export function decidedAs(
  { choices, conflicts }: Merging,
  { base, theirs, yours }: Versions<Json | undefined>,
  place: Place,
  at: string,
): Side {
  const field = {
    at: pointerOf(place),
    ...(base === undefined ? {} : { base }),
    ...(theirs === undefined ? {} : { theirs }),
    ...(yours === undefined ? {} : { yours }),
  };
  const known = conflicts.get(at);
  conflicts.set(at, { at, part: pointerOf(partOf(place)), fields: [...(known?.fields ?? []), field] });
  return Object.hasOwn(choices, at) ? (choices[at] ?? 'yours') : 'yours';
}

/** A limit stands in two bands at once, so that all bands of a test are decided together. */
function conflictAt(place: Place): string {
  const [group, test, results, , band] = place;
  return group === 'tests' && results === 'results' && band === 'band'
    ? `${pointerOf(['tests', test ?? '', 'results'])}/*/band`
    : pointerOf(place);
}

const GROUPS = ['bench', 'interlocks', 'tests', 'findings', 'symptoms'];

/** The part of the tree that a place lies in. */
export function partOf(place: Place): Place {
  const [group, , steps] = place;
  if (place.length < 2 || !GROUPS.includes(String(group))) return [];
  return group === 'symptoms' && steps === 'steps' && place.length >= 4
    ? place.slice(0, 4)
    : place.slice(0, 2);
}

/** Whether what stands at a place comes, goes and is decided as a whole where it was not in the base. */
export function isWhole(place: Place): boolean {
  return isOneStatement(place) || !FIELDS_OF_MANY.has(fieldOf(place));
}

/** Records that are there whether or not a document gives them, by where they stand; an id is put as `*`. */
const FIELDS_OF_MANY = new Set([
  ...GROUPS,
  'defaults',
  'tests/*/needs',
  'findings/*/remedy/needs',
  'findings/*/expects',
  'symptoms/*/weights',
  'symptoms/*/steps',
]);

function fieldOf(place: Place): string {
  return place.map((key, depth) => (depth === 1 ? '*' : String(key))).join('/');
}
