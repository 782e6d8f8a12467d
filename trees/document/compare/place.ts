/** Keys and indices from a document's root. */
export type Place = readonly (string | number)[];

/**
 * Whether the order of a record's entries says something: the first result is the one a sound unit gives, and states are
 * listed as the author wants them read.
 */
export function isOrdered([group, , record, ...more]: Place): boolean {
  return (
    more.length === 0 &&
    ((group === 'tests' && record === 'results') || (group === 'bench' && record === 'states'))
  );
}

/** Whether the record at this place holds things by their ids, each of which comes and goes as a whole. */
export function holdsThings(place: Place): boolean {
  const [group, , record] = place;
  if (isOrdered(place)) return true;
  if (group === 'findings') return place.length === 3 && record === 'expects';
  return group === 'symptoms' && place.length === 5 && place[4] === 'then';
}

/** Whether what stands here is one statement, although JSON writes it in pieces: the shares of what a finding expects. */
export function isOneStatement(place: Place): boolean {
  return place.length === 4 && place[0] === 'findings' && place[2] === 'expects';
}
