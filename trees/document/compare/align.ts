import { isRecord, type Json } from '../json.ts';
import { sameText } from './same.ts';
import { commonPairs, type Pair } from './sequence.ts';

/**
 * Which entries of two lists are the same entry, as pairs rising in both: those of the same content, and between them those
 * that have changed and are still known again. What is in no pair has come or gone.
 */
export function alignLists(former: readonly Json[], latter: readonly Json[]): readonly Pair[] {
  const equal = commonPairs(former, latter, sameText);
  return gaps(equal, former.length, latter.length).flatMap(({ from, to, then }) => [
    ...knownAgain(former.slice(...from), latter.slice(...to)).map(([one, other]): Pair => [
      from[0] + one,
      to[0] + other,
    ]),
    ...then,
  ]);
}

interface Gap {
  readonly from: readonly [number, number];
  readonly to: readonly [number, number];
  /** The pair that the gap ends with. */
  readonly then: readonly Pair[];
}

function gaps(pairs: readonly Pair[], formerLength: number, latterLength: number): readonly Gap[] {
  const ends = [
    ...pairs.map((pair) => ({ pair, then: [pair] })),
    { pair: [formerLength, latterLength], then: [] },
  ];
  return ends.map(({ pair: [one = 0, other = 0], then }, index) => {
    const [oneBefore, otherBefore] = pairs[index - 1] ?? [-1, -1];
    return { from: [oneBefore + 1, one], to: [otherBefore + 1, other], then };
  });
}

function knownAgain(former: readonly Json[], latter: readonly Json[]): readonly Pair[] {
  const plain = [...former, ...latter].every((entry) => !isRecord(entry));
  if (!plain) return commonPairs(former, latter, isKin);
  // As many sentences as before in the same place: each has been written anew. Otherwise nothing tells which is which.
  return former.length === latter.length ? former.map((_, place): Pair => [place, place]) : [];
}

/** What an entry of a list is known by, whatever else of it changes: one of these groups of fields. */
const KNOWN_BY = [['from', 'to'], ['name'], ['label'], ['x', 'y'], ['change'], ['because']] as const;

function isKin(one: Json, other: Json): boolean {
  return (
    isRecord(one) &&
    isRecord(other) &&
    KNOWN_BY.some((fields) =>
      fields.every((field) => one[field] !== undefined && sameText(one[field], other[field])),
    )
  );
}
