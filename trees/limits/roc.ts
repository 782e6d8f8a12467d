/** A reading on the line: where it lies ({@link import('./recorded-reading.ts').placeOf}). */
export interface Placed {
  readonly at: number;
}

/** What a limit does that takes every reading from `from` on as positive; `from: null` takes none. */
export interface RocPoint {
  readonly from: number | null;
  readonly sensitivity: number;
  readonly falsePositives: number;
}

/** How well readings tell two kinds apart, over all limits at once. */
export interface Roc {
  readonly positives: number;
  readonly negatives: number;
  /** From the limit that takes every reading as positive (1, 1) to the one that takes none (0, 0). */
  readonly points: readonly RocPoint[];
  /**
   * The area under the curve: the chance that a positive reads higher than a negative, ties half, which is the
   * Mann-Whitney U over the number of pairs (Hanley & McNeil 1982, Radiology 143:29-36).
   */
  readonly area: number;
  /** Its standard error by the distribution-free estimate of the same paper (its table II). */
  readonly standardError: number;
}

/** The curve of readings of which the positive ones ought to lie higher; null where one of the kinds is wanting. */
export function rocOf<R extends Placed>(
  readings: readonly R[],
  isPositive: (reading: R) => boolean,
): Roc | null {
  const ties = tiesOf(readings, isPositive);
  const positives = ties.reduce((sum, tie) => sum + tie.positives, 0);
  const negatives = readings.length - positives;
  if (positives === 0 || negatives === 0) return null;
  const area = areaOf(ties, positives, negatives);
  return {
    positives,
    negatives,
    points: pointsOf(ties, positives, negatives),
    area,
    standardError: standardErrorOf(ties, positives, negatives, area),
  };
}

/** All readings at one place of the line. */
export interface Tie {
  readonly at: number;
  readonly positives: number;
  readonly negatives: number;
}

/** The readings gathered by place, lowest first. */
export function tiesOf<R extends Placed>(
  readings: readonly R[],
  isPositive: (reading: R) => boolean,
): readonly Tie[] {
  const ties: { at: number; positives: number; negatives: number }[] = [];
  for (const reading of readings.toSorted((a, b) => (a.at < b.at ? -1 : a.at > b.at ? 1 : 0))) {
    const last = ties.at(-1);
    const tie = last?.at === reading.at ? last : { at: reading.at, positives: 0, negatives: 0 };
    if (tie !== last) ties.push(tie);
    if (isPositive(reading)) tie.positives += 1;
    else tie.negatives += 1;
  }
  return ties;
}

function pointsOf(ties: readonly Tie[], positives: number, negatives: number): readonly RocPoint[] {
  let [left, leftNegatives] = [positives, negatives];
  const points: RocPoint[] = ties.map(({ at, positives: above, negatives: wrong }) => {
    const point = {
      from: at,
      sensitivity: left / positives,
      falsePositives: leftNegatives / negatives,
    };
    left -= above;
    leftNegatives -= wrong;
    return point;
  });
  return [...points, { from: null, sensitivity: 0, falsePositives: 0 }];
}

/** U / (n1 n2), counted in halves so that the sum is exact. */
function areaOf(ties: readonly Tie[], positives: number, negatives: number): number {
  let below = 0;
  let halves = 0;
  for (const tie of ties) {
    halves += tie.positives * (2 * below + tie.negatives);
    below += tie.negatives;
  }
  return halves / (2 * positives * negatives);
}

/**
 * sqrt((A(1-A) + (n1-1)(Q1-A²) + (n2-1)(Q2-A²)) / (n1 n2)), with Q1 the chance that two random positives both read higher
 * than one random negative, Q2 that one random positive reads higher than two random negatives (equation 1 and table II).
 */
function standardErrorOf(ties: readonly Tie[], positives: number, negatives: number, area: number): number {
  let [belowNegatives, abovePositives] = [0, positives];
  let [q1, q2] = [0, 0];
  for (const tie of ties) {
    abovePositives -= tie.positives;
    q1 += tie.negatives * bothBeyond(abovePositives, tie.positives);
    q2 += tie.positives * bothBeyond(belowNegatives, tie.negatives);
    belowNegatives += tie.negatives;
  }
  q1 /= negatives * positives * positives;
  q2 /= positives * negatives * negatives;
  const square = area * area;
  const variance = area * (1 - area) + (positives - 1) * (q1 - square) + (negatives - 1) * (q2 - square);
  return Math.sqrt(Math.max(0, variance) / (positives * negatives));
}

/** Pairs that both lie beyond, a tie with one counting half and a tie with both a third. */
function bothBeyond(beyond: number, tied: number): number {
  return beyond * beyond + beyond * tied + (tied * tied) / 3;
}
