import fc from 'fast-check';

/** A reading on the line that is known to be of the upper kind or not. */
export interface Drawn {
  readonly at: number;
  readonly positive: boolean;
}

export const isPositive = ({ positive }: Drawn): boolean => positive;

/** Readings with many ties, the positive ones on average higher. */
export function drawnReadings(most = 60): fc.Arbitrary<readonly Drawn[]> {
  return sides(1, most / 2, 0);
}

/** {@link drawnReadings} with at least so many on each side, and `OL` among them. */
export function enoughReadings(least: number): fc.Arbitrary<readonly Drawn[]> {
  return sides(least, least + 30, 9);
}

function sides(least: number, most: number, overloads: number): fc.Arbitrary<readonly Drawn[]> {
  const place = fc.integer({ min: -20, max: 20 + overloads });
  const side = fc.array(place, { minLength: least, maxLength: most });
  const at = (drawn: number): number => (drawn > 20 ? Infinity : drawn);
  return fc
    .tuple(side, side)
    .map(([above, below]) => [
      ...above.map((drawn) => ({ at: at(drawn) + 6, positive: true })),
      ...below.map((drawn) => ({ at: at(drawn), positive: false })),
    ]);
}
