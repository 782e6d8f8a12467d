import { alignLists, pointerOf, sameText, type Place } from '../../document/index.ts';
import type { Json } from '../json.ts';
import { decided, decidedAs, type Merging, type Versions } from './conflict.ts';

type MergeValues = (merging: Merging, versions: Versions<Json | undefined>, place: Place) => Json | undefined;

type Lists = Versions<readonly Json[]>;

/**
 * What three versions of a list make: entries that one side has put in, taken out or changed, so; those that both have
 * changed, field by field. Both sides' new entries in one place stand one after the other, yours first, but for a remedy's
 * acts, whose order is for a person to decide.
 */
export function mergeLists(merging: Merging, lists: Lists, place: Place, mergeValues: MergeValues): Json {
  const theirs = versionOf(lists.base, lists.theirs);
  const yours = versionOf(lists.base, lists.yours);
  if (isTorn(lists.base, theirs, yours) || isTorn(lists.base, yours, theirs))
    return lists[decided(merging, lists, place)];
  const known = yours.added.flat();
  const added = theirs.added.map((some) =>
    some.filter((one) => !known.some((other) => sameText(one, other))),
  );
  return [...lists.base, undefined].flatMap((base, index) => {
    const come = bothAdded(merging, added[index] ?? [], yours.added[index] ?? [], [...place, index]);
    if (base === undefined) return come;
    const versions = { base, theirs: theirs.kept[index], yours: yours.kept[index] };
    const value = mergeValues(merging, versions, [...place, index]);
    return value === undefined ? come : [...come, value];
  });
}

/** A version of a list as told from its base: what became of each entry, and what came before each of them and at the end. */
interface Version {
  readonly kept: readonly (Json | undefined)[];
  readonly added: readonly (readonly Json[])[];
}

function versionOf(base: readonly Json[], version: readonly Json[]): Version {
  const pairs = alignLists(base, version);
  const kept: (Json | undefined)[] = base.map(() => undefined);
  for (const [one, other] of pairs) kept[one] = version[other];
  const formerOf = new Map(pairs.map(([one, other]) => [other, one]));
  const added: Json[][] = Array.from({ length: base.length + 1 }, () => []);
  let before = 0;
  version.forEach((value, index) => {
    const former = formerOf.get(index);
    if (former === undefined) added[before]?.push(value);
    else before = former + 1;
  });
  return { kept, added };
}

/** Whether an entry that one side has only moved is changed or taken out by the other: entries cannot then be told apart. */
function isTorn(base: readonly Json[], mover: Version, other: Version): boolean {
  const moved = mover.added.flat();
  const alsoMoved = other.added.flat();
  return base.some((entry, index) => {
    const isMoved = mover.kept[index] === undefined && moved.some((one) => sameText(one, entry));
    if (!isMoved || sameText(other.kept[index], entry)) return false;
    return other.kept[index] !== undefined || !alsoMoved.some((one) => sameText(one, entry));
  });
}

function bothAdded(
  merging: Merging,
  theirs: readonly Json[],
  yours: readonly Json[],
  place: Place,
): readonly Json[] {
  if (theirs.length === 0 || yours.length === 0 || !isActs(place)) return [...yours, ...theirs];
  const at = `${pointerOf(place)}/+`;
  return decidedAs(merging, { base: undefined, theirs, yours }, place, at) === 'theirs' ? theirs : yours;
}

function isActs(place: Place): boolean {
  return place[0] === 'findings' && place[2] === 'remedy' && place[3] === 'steps';
}
