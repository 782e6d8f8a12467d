import type { Outcome } from '../chart/index.ts';

/** `count` of `of`, with the 95 % Wilson score interval. */
export interface Share {
  readonly count: number;
  readonly of: number;
  readonly share: number;
  readonly low: number;
  readonly high: number;
}

/** How often units were fixed the first time: by the first remedy, and not back within the window as far as is known. */
export interface FirstTimeFix {
  readonly closed: number;
  readonly fixed: number;
  readonly rate: number;
  readonly low: number;
  readonly high: number;
  /** Of those fixed, the jobs whose window has not passed yet: they may still come back. */
  readonly stillOpen: number;
  /**
   * The jobs whose window has passed, and those of them that were fixed the first time: what groups are held against each other
   * by, as one whose jobs are mostly recent has had less time for comebacks.
   */
  readonly judged: { readonly closed: number; readonly fixed: number };
}

/** First-time fix of the jobs that have something in common; ids, and the tree they belong to where they do. */
export interface Group extends FirstTimeFix {
  readonly id: string;
  readonly tree: string | null;
}

/** A month's point of the p-chart. `low` and `high` are the control limits for its number of jobs. */
export interface MonthPoint {
  /** `YYYY-MM`, UTC. */
  readonly month: string;
  readonly closed: number;
  readonly fixed: number;
  readonly rate: number;
  readonly low: number;
  readonly high: number;
  /** Beyond its limits; a provisional month only where it is over and below them, as comebacks can but lower it. */
  readonly outOfControl: boolean;
  /** Some of its jobs may still come back, so that it is no part of the centre line and never called above its limits. */
  readonly provisional: boolean;
}

/** How first-time fix moves over the months that are not provisional: a straight line, by the test of Cochran and Armitage. */
export interface MonthTrend {
  readonly months: number;
  /** The share that it rises by in a month; less than 0 where it falls. */
  readonly perMonth: number;
  readonly deviations: number;
  /** Chance of a line as steep, up or down, where nothing changes but by chance. */
  readonly chance: number;
  readonly differs: boolean;
}

/** A point of the comeback-free curve: the share of fixed units not back after so many days. */
export interface CurvePoint {
  readonly days: number;
  /** Units that were neither back nor lost from sight just before. */
  readonly atRisk: number;
  readonly back: number;
  readonly survival: number;
  /** Greenwood's standard error. */
  readonly error: number;
  readonly low: number;
  readonly high: number;
}

/** A count against what it would be if chance alone told it from all others, and how likely that is. */
export interface AgainstAll {
  readonly expected: number;
  /** Chance of a count no likelier, were there no difference; and that after Holm's correction for as many as are compared. */
  readonly chance: number;
  readonly corrected: number;
  readonly differs: boolean;
}

/** How the units come back that one finding's remedy mended. */
export interface FindingComebacks extends AgainstAll {
  readonly tree: string;
  readonly finding: string;
  /** Units closed as fixed. */
  readonly fixed: number;
  /** Those back within the window; `expected` is how many, did they come back as all units do for as long as they are in sight. */
  readonly back: number;
  /** As {@link Review.atWindow}, of these units. */
  readonly atWindow: CurvePoint | null;
}

/**
 * A technician's jobs whose window has passed, and those of them that were fixed the first time; `expected` is how many, were they
 * fixed as often as all jobs of the same symptoms are.
 */
export interface LikeForLike extends AgainstAll {
  readonly technician: string;
  readonly closed: number;
  readonly fixed: number;
}

/** The same of one symptom's jobs. */
export interface TechnicianSymptom extends LikeForLike {
  readonly tree: string;
  readonly symptom: string;
}

/** Jobs in which this finding's remedy was the first to be proved, and those of them that it mended. */
export interface TriedFirst extends Share {
  readonly tree: string;
  readonly finding: string;
  /** What it was in the others, where that was found; the five of the most jobs, most first. */
  readonly instead: readonly { readonly finding: string; readonly jobs: number }[];
}

/** Mean, middle and spread of lengths of time, in minutes. */
export interface Spread {
  readonly jobs: number;
  readonly mean: number;
  readonly lower: number;
  readonly median: number;
  readonly upper: number;
  /** Standard error of the mean; null of one job. */
  readonly error: number | null;
}

/** A bar of the Pareto. */
export interface ParetoBar {
  readonly tree: string;
  readonly finding: string;
  readonly jobs: number;
  readonly minutes: number;
  readonly parts: number;
}

/** How long a symptom takes, against what the tree expects of its path (null where it has none, or it cannot be worked out). */
export interface SymptomMinutes {
  readonly tree: string;
  readonly symptom: string;
  readonly toFinding: Spread | null;
  readonly toProof: Spread | null;
  readonly expected: { readonly toFinding: number; readonly toProof: number } | null;
  /**
   * Where the mean to the finding lies, surely enough for all symptoms together: Student's interval of a confidence of 1 - 0.05/k,
   * k being the symptoms with two jobs or more (Bonferroni). Null of fewer jobs.
   */
  readonly meanToFinding: { readonly low: number; readonly high: number } | null;
}

/** A branch of a tree's current revision against what confirmed jobs have shown. */
export interface Branch {
  readonly tree: string;
  readonly symptom: string;
  readonly step: string;
  readonly test: string;
  readonly result: string;
  /** The author's share of the units that come to the step. */
  readonly authored: number;
  /** Confirmed jobs of the filter that came by the step, and those of them that left by this branch. */
  readonly passed: number;
  readonly took: number;
  /** How likely it is now, as the bench shows it at this step, of the whole history. */
  readonly now: number;
  /** Its 90 % credible interval; null in a tree too large for it. */
  readonly low: number | null;
  readonly high: number | null;
  /**
   * Chance of counts as far from the author's share, as a test of the reliability that the author gives it shows it, by the exact
   * binomial test; and that after Holm's correction.
   */
  readonly chance: number;
  readonly corrected: number;
  readonly differs: boolean;
}

/** The percentages shown that lie in one tenth. */
export interface CalibrationBin {
  readonly from: number;
  readonly to: number;
  /** Jobs in which some did; one job may have several. */
  readonly jobs: number;
  readonly count: number;
  readonly confirmed: number;
  /** Mean of the percentages shown, as shares. */
  readonly forecast: number;
  readonly observed: number;
  readonly low: number;
  readonly high: number;
}

/**
 * Murphy's decomposition: brier = reliability - resolution + uncertainty, over the percentages as shown (whole ones); all four null
 * where none was.
 */
export interface Calibration {
  readonly jobs: number;
  readonly percentages: number;
  readonly brier: number | null;
  readonly reliability: number | null;
  readonly resolution: number | null;
  readonly uncertainty: number | null;
  readonly bins: readonly CalibrationBin[];
}

/** The mix of findings in the newest quarter against the time before it. */
export interface MixChange {
  /** The first day of the newest quarter. */
  readonly since: string;
  readonly now: number;
  readonly before: number;
  readonly findings: readonly {
    readonly tree: string;
    readonly finding: string;
    readonly now: number;
    readonly before: number;
    readonly chance: number;
    readonly corrected: number;
    readonly differs: boolean;
  }[];
}

/** Minutes with a 95 % interval: Student's t times the standard error, with its degrees of freedom. */
export interface Estimate {
  readonly jobs: number;
  readonly minutes: number;
  readonly error: number;
  readonly degrees: number;
  readonly low: number;
  readonly high: number;
}

/**
 * What the planner's advice is worth, from minutes to the finding in jobs of the same symptom and finding with and without
 * advice taken. Null where too few were of both kinds.
 */
export interface PlannerWorth {
  readonly taken: number;
  readonly notTaken: number;
  /** Kinds of job (tree, symptom, finding) that had enough of both. */
  readonly kinds: number;
  /** Saved in the jobs where it was taken. */
  readonly saved: Estimate | null;
  /** What it would have saved where it was not. */
  readonly wouldSave: Estimate | null;
}

/** The review's page. */
export interface Review {
  /** Milliseconds since 1970 UTC at which the comebacks were known. */
  readonly asOf: number;
  /** All closed jobs on record, and the days of the first and the last closing; null where there is none. */
  readonly record: { readonly jobs: number; readonly first: string | null; readonly last: string | null };
  /** Closed jobs of the filter. */
  readonly jobs: number;
  readonly firstTimeFix: FirstTimeFix;
  /** With the minutes at the bench of their jobs. */
  readonly outcomes: readonly (Share & { readonly outcome: Outcome; readonly minutes: number })[];
  readonly byTree: readonly Group[];
  readonly bySymptom: readonly Group[];
  readonly byFinding: readonly Group[];
  readonly byBoard: readonly Group[];
  readonly byTechnician: readonly Group[];
  readonly byMonth: readonly MonthPoint[];
  /** The p-chart's centre line; null where no month can be judged. */
  readonly centre: number | null;
  /** Null where fewer than two months can be judged, or all or none of their jobs were fixed the first time. */
  readonly trend: MonthTrend | null;
  readonly comebackFree: readonly CurvePoint[];
  /** The curve at the window's end; null where nothing was fixed, or some are not back and the window has passed for none of them. */
  readonly atWindow: CurvePoint | null;
  /** Least likely to be chance first. */
  readonly comebacksByFinding: readonly FindingComebacks[];
  /** By technician, and by technician and symptom: in the order of their ids, as nobody comes first. */
  readonly likeForLike: readonly LikeForLike[];
  readonly technicianSymptoms: readonly TechnicianSymptom[];
  readonly pareto: readonly ParetoBar[];
  readonly toFinding: Spread | null;
  readonly toProof: Spread | null;
  readonly minutes: readonly SymptomMinutes[];
  readonly branches: readonly Branch[];
  readonly calibration: Calibration;
  /** Most often tried in vain first. */
  readonly triedFirst: readonly TriedFirst[];
  readonly change: MixChange | null;
  readonly planner: PlannerWorth;
}
