import { deviationsOf } from './deviations-of.ts';
import { exactInterval } from './exact-interval.ts';
import type { Interval } from './interval.ts';

/** A point of a survival curve: the share that the event has not come to after so many days. */
export interface SurvivalPoint {
  readonly days: number;
  /** Those to whom it had not come and who were not lost from sight just before. */
  readonly atRisk: number;
  readonly events: number;
  readonly survival: number;
  /** Greenwood's standard error. */
  readonly error: number;
  readonly low: number;
  readonly high: number;
}

/**
 * The product-limit estimate from counts by whole day (Kaplan & Meier 1958, J. Amer. Statist. Assoc. 53:457-481): entry d of
 * `events` and of `censored` is how many had the event on day d or were lost from sight; those lost on a day count as at
 * risk on it. A point on each day with an event and on each of the days `alsoOn`, ascending, as long as somebody is at risk.
 *
 * `error` is Greenwood's (1926, Reports on Public Health 33). The interval is symmetric on the scale of log(-log S), which
 * keeps it within 0..1 (Kalbfleisch & Prentice 1980, The Statistical Analysis of Failure Time Data, 1.3). Where S is still 1
 * that scale has no width: the exact lower limit of none in so many stands there. Where S has come to 0: the exact upper
 * limit for those who were left, but no more than the limit before.
 */
export function kaplanMeier(
  events: ArrayLike<number>,
  censored: ArrayLike<number>,
  alsoOn: readonly number[] = [0],
  confidence = 0.95,
): SurvivalPoint[] {
  const points: SurvivalPoint[] = [];
  const wanted = new Set(alsoOn);
  const length = Math.max(events.length, censored.length);
  let [atRisk, survival, variance, ceiling] = [sumOf(events) + sumOf(censored), 1, 0, 1];
  for (let days = 0; days < length && atRisk > 0; days++) {
    const gone = events[days] ?? 0;
    if (gone > 0 || wanted.has(days)) {
      survival *= 1 - gone / atRisk;
      variance += gone === atRisk ? 0 : gone / (atRisk * (atRisk - gone));
      const interval = intervalOf({ survival, variance, atRisk, ceiling }, confidence);
      points.push({
        days,
        atRisk,
        events: gone,
        survival,
        error: survival * Math.sqrt(variance),
        ...interval,
      });
      ceiling = interval.high;
    }
    atRisk -= gone + (censored[days] ?? 0);
  }
  return points;
}

interface Standing {
  readonly survival: number;
  /** The variance of log S: Greenwood's sum. */
  readonly variance: number;
  readonly atRisk: number;
  /** The upper limit just before. */
  readonly ceiling: number;
}

function intervalOf({ survival, variance, atRisk, ceiling }: Standing, confidence: number): Interval {
  if (survival === 1) return exactInterval(atRisk, atRisk, confidence);
  if (survival === 0) return { low: 0, high: Math.min(ceiling, exactInterval(0, atRisk, confidence).high) };
  const reach = (deviationsOf(confidence) * Math.sqrt(variance)) / -Math.log(survival);
  return { low: survival ** Math.exp(reach), high: survival ** Math.exp(-reach) };
}

function sumOf(counts: ArrayLike<number>): number {
  let sum = 0;
  for (let index = 0; index < counts.length; index++) sum += counts[index] ?? 0;
  return sum;
}
