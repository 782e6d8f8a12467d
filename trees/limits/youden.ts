import { rateOf, type Rate } from '../statistics/index.ts';
import { halfway } from './halfway.ts';
import { rocOf, tiesOf, type Placed, type Roc, type Tie } from './roc.ts';

/** The readings that each side must have before a limit is suggested at all; a rule of the house, not a published one. */
export const ENOUGH = 8;

/** What one limit makes of the readings: those from the limit on count as positive. Every rate has its 95 % interval. */
export interface LimitFigures {
  readonly limit: number;
  /** Positives at or above the limit, of all positives. */
  readonly sensitivity: Rate;
  /** Negatives below the limit, of all negatives. */
  readonly specificity: Rate;
  /** Positives below the limit, of all positives. */
  readonly missed: Rate;
  /** Negatives at or above the limit, of all negatives. */
  readonly falseAlarms: Rate;
  /** J = sensitivity + specificity - 1 (Youden 1950, Cancer 3:32-35). */
  readonly youden: number;
}

/** Where a limit may stand, and where it stands now; null where there is none. Open ends are infinite. */
export interface LimitRoom {
  readonly present: number | null;
  readonly above: number;
  readonly below: number;
}

/**
 * What the readings say of a limit.
 *
 * - `too-few`: a side has fewer than {@link ENOUGH} readings; `missing` says how many more each side needs.
 * - `not-apart`: the area under the curve is not above one half by more than chance (its 95 % interval reaches a half), or
 *   no limit in the room does better than none.
 * - `stay`: no limit in the room has a larger J than the present one.
 * - `move`: `best` has; `gap` are the neighbouring readings it stands between.
 */
export type Suggestion =
  | { readonly kind: 'too-few'; readonly missing: { readonly positives: number; readonly negatives: number } }
  | { readonly kind: 'not-apart'; readonly roc: Roc; readonly present: LimitFigures | null }
  | { readonly kind: 'stay'; readonly roc: Roc; readonly present: LimitFigures }
  | {
      readonly kind: 'move';
      readonly roc: Roc;
      readonly present: LimitFigures | null;
      readonly best: LimitFigures;
      readonly gap: readonly [number, number];
    };

/**
 * The limit with the largest J, of the present one and those halfway between neighbouring readings within the room. Of equal
 * ones the nearest to the present limit, then the one in the larger gap, then the lowest.
 */
export function youden<R extends Placed>(
  readings: readonly R[],
  isPositive: (reading: R) => boolean,
  room: LimitRoom,
): Suggestion {
  const positives = readings.filter(isPositive).length;
  const negatives = readings.length - positives;
  if (positives < ENOUGH || negatives < ENOUGH) {
    const missing = {
      positives: Math.max(0, ENOUGH - positives),
      negatives: Math.max(0, ENOUGH - negatives),
    };
    return { kind: 'too-few', missing };
  }
  const roc = rocOf(readings, isPositive);
  if (roc === null) throw new Error('roc-missing: both sides have readings');
  const present = room.present === null ? null : figuresAt(readings, isPositive, room.present);
  const best = bestOf(candidatesIn(tiesOf(readings, isPositive), room), room, roc);
  if (best === null || best.gain <= 0 || !aboveChance(roc)) return { kind: 'not-apart', roc, present };
  if (present !== null && best.gain <= gainOf(present)) return { kind: 'stay', roc, present };
  return { kind: 'move', roc, present, best: figuresAt(readings, isPositive, best.limit), gap: best.gap };
}

/** What a limit makes of the readings. */
export function figuresAt<R extends Placed>(
  readings: readonly R[],
  isPositive: (reading: R) => boolean,
  limit: number,
): LimitFigures {
  let [found, missed, cleared, alarms] = [0, 0, 0, 0];
  for (const reading of readings) {
    const above = reading.at >= limit;
    if (isPositive(reading)) {
      if (above) found += 1;
      else missed += 1;
    } else if (above) alarms += 1;
    else cleared += 1;
  }
  const [positives, negatives] = [found + missed, cleared + alarms];
  const sensitivity = rateOf(found, positives);
  const specificity = rateOf(cleared, negatives);
  return {
    limit,
    sensitivity,
    specificity,
    missed: rateOf(missed, positives),
    falseAlarms: rateOf(alarms, negatives),
    youden: sensitivity.share + specificity.share - 1,
  };
}

interface Candidate {
  readonly limit: number;
  readonly gap: readonly [number, number];
  /** J times n1 n2: whole, so that equal ones are told to be equal. */
  readonly gain: number;
}

function gainOf({ sensitivity, falseAlarms }: LimitFigures): number {
  return sensitivity.count * falseAlarms.of - falseAlarms.count * sensitivity.of;
}

function aboveChance({ area, standardError }: Roc): boolean {
  return area - 1.959963984540054 * standardError > 0.5;
}

type Cut = Omit<Candidate, 'gain'> & { readonly positives: number; readonly negatives: number };

/** Limits in the gaps between neighbouring readings, cut to the room; with how many readings lie above each. */
function candidatesIn(ties: readonly Tie[], { above, below }: LimitRoom): readonly Cut[] {
  const span = spanOf(ties);
  let [positives, negatives] = [0, 0];
  const cuts: Cut[] = [];
  for (let index = ties.length - 1; index > 0; index -= 1) {
    const [lower, upper] = [ties[index - 1], ties[index]];
    if (lower === undefined || upper === undefined) continue;
    positives += upper.positives;
    negatives += upper.negatives;
    const gap = [Math.max(lower.at, above), Math.min(upper.at, below)] as const;
    if (gap[0] >= gap[1]) continue;
    const limit = halfway(gap[0], gap[1], span);
    if (limit > gap[0] && limit < gap[1])
      cuts.push({ limit, gap: [lower.at, upper.at], positives, negatives });
  }
  return cuts.reverse();
}

/** How far one steps beyond the highest reading: as far as the readings reach, or as far as the highest is from zero. */
function spanOf(ties: readonly Tie[]): number {
  const finite = ties.map(({ at }) => at).filter(Number.isFinite);
  const [first = 0, last = 0] = [finite[0], finite.at(-1)];
  return Math.max(last - first, Math.abs(last)) || 1;
}

function bestOf(cuts: readonly Cut[], { present }: LimitRoom, roc: Roc): Candidate | null {
  const distance = ({ limit }: Cut): number => (present === null ? 0 : Math.abs(limit - present));
  const width = ({ gap }: Cut): number => gap[1] - gap[0];
  let best: { cut: Cut; gain: number } | null = null;
  for (const cut of cuts) {
    const gain = cut.positives * roc.negatives - cut.negatives * roc.positives;
    const better =
      best === null ||
      gain > best.gain ||
      (gain === best.gain &&
        (distance(cut) < distance(best.cut) ||
          (distance(cut) === distance(best.cut) && width(cut) > width(best.cut))));
    if (better) best = { cut, gain };
  }
  return best === null ? null : { limit: best.cut.limit, gap: best.cut.gap, gain: best.gain };
}
