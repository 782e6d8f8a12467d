/** Two places a decade or more apart are taken by decades. */
const DECADE = 10;

/**
 * A limit halfway between two neighbouring readings, written with as few digits as stay within the middle half of the gap.
 * By decades where they are ten times apart or more and above zero, else in proportion. Above the highest reading
 * (`upper` Infinity) it is one `span` on.
 */
export function halfway(lower: number, upper: number, span: number): number {
  if (upper === Infinity) return shortest(lower + span / 2, lower + span, lower + 2 * span);
  if (lower > 0 && upper >= DECADE * lower) {
    const ratio = upper / lower;
    return shortest(lower * ratio ** 0.25, lower * ratio ** 0.5, lower * ratio ** 0.75);
  }
  const gap = upper - lower;
  return shortest(lower + gap / 4, lower + gap / 2, lower + (3 * gap) / 4);
}

function shortest(least: number, wanted: number, most: number): number {
  for (let digits = 1; digits <= 15; digits += 1) {
    const rounded = Number(wanted.toPrecision(digits));
    if (least <= rounded && rounded <= most) return rounded;
  }
  return wanted;
}
