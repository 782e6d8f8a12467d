/** Records whose keys are ids. */
const BY_ID = new Set([
  'tests',
  'findings',
  'symptoms',
  'bench',
  'steps',
  'results',
  'states',
  'then',
  'needs',
  'expects',
  'weights',
  'change',
  'until',
]);

/** A place with `*` for every id and `#` for every index of a list, so that the same field of any part reads the same. */
export function patternOf(place: readonly string[]): string {
  let underId = false;
  return place
    .map((key) => {
      const isIndex = /^\d+$/.test(key);
      const written = isIndex ? '#' : underId ? '*' : key;
      underId = !isIndex && !underId && BY_ID.has(key);
      return written;
    })
    .join('/');
}
