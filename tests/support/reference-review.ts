import cdf from '@stdlib/stats-base-dists-normal-cdf';
import { OUTCOMES } from '../../trees/chart/index.ts';
import type { JobFact, Review, ReviewFilter } from '../../trees/review/index.ts';
import {
  controlPoint,
  kaplanMeier,
  pChart,
  rateOf,
  sampleOf,
  studentQuantile,
} from '../../trees/statistics/index.ts';
import { comebacksByFinding, likeForLike, technicianSymptoms } from './reference-review-against.ts';
import { calibration, change, dayText, planner, texts, triedFirst } from './reference-review-parts.ts';

const DAY = 86_400_000;

/**
 * The review's figures that need no tree, from plain facts by filters, sorts and the calendar of the runtime. It shares with the
 * room no arithmetic but the pure functions of statistics.
 */
export function referenceReview(
  all: readonly JobFact[],
  filter: ReviewFilter,
  now: number,
): Omit<Review, 'branches'> {
  const jobs = all.filter((job) => isWanted(job, filter));
  const isFirst = (job: JobFact): boolean => isFirstTimeFix(job, filter, now);
  const fix = (some: readonly JobFact[]) => {
    const fixed = some.filter(isFirst);
    const { count, of, share, low, high } = rateOf(fixed.length, some.length);
    const isOpen = (job: JobFact): boolean => job.closedAt + filter.window * DAY > now;
    const stillOpen = fixed.filter(isOpen).length;
    const judged = {
      closed: some.filter((job) => !isOpen(job)).length,
      fixed: fixed.length - stillOpen,
    };
    return { closed: of, fixed: count, rate: share, low, high, stillOpen, judged };
  };
  const groups = (some: readonly JobFact[], name: (job: JobFact) => Named) =>
    [...Map.groupBy(some, (job) => JSON.stringify(name(job)))]
      .map(([key, ofName]) => ({ ...(JSON.parse(key) as Named), ...fix(ofName) }))
      .sort((a, b) => b.closed - a.closed || texts(a.tree ?? '', b.tree ?? '') || texts(a.id, b.id));
  const confirmed = jobs.filter(({ finding }) => finding !== null);
  const judged = jobs
    .filter(({ closedAt }) => closedAt + filter.window * DAY <= now)
    .map((job) => ({ ...job, isFirst: isFirst(job) }));
  const days = all.map(({ closedAt }) => dayText(closedAt)).sort();
  return {
    asOf: now,
    record: { jobs: all.length, first: days[0] ?? null, last: days.at(-1) ?? null },
    jobs: jobs.length,
    firstTimeFix: fix(jobs),
    outcomes: OUTCOMES.map((outcome) => {
      const ended = jobs.filter((job) => job.outcome === outcome);
      const minutes = ended.reduce((sum, { atBench }) => sum + atBench, 0) / 60_000;
      return { outcome, ...rateOf(ended.length, jobs.length), minutes };
    }),
    byTree: groups(jobs, ({ tree }) => ({ id: tree, tree })),
    bySymptom: groups(jobs, ({ tree, symptom }) => ({ id: symptom, tree })),
    byFinding: groups(confirmed, ({ tree, finding }) => ({ id: finding ?? '', tree })),
    byBoard: groups(jobs, ({ tree, board }) => ({ id: board, tree })),
    byTechnician: groups(jobs, ({ technician }) => ({ id: technician, tree: null })).sort((a, b) =>
      texts(a.id, b.id),
    ),
    ...months(jobs, isFirst, filter, now),
    ...curve(jobs, filter, now),
    comebacksByFinding: comebacksByFinding(jobs, filter.window, (some) => curve(some, filter, now), now),
    likeForLike: likeForLike(judged),
    technicianSymptoms: technicianSymptoms(judged),
    pareto: pareto(confirmed),
    toFinding: spread(jobs.flatMap(({ toFinding }) => toFinding ?? [])),
    toProof: spread(jobs.flatMap(({ toProof }) => toProof ?? [])),
    minutes: minutes(jobs),
    calibration: calibration(confirmed),
    triedFirst: triedFirst(jobs),
    change: change(jobs, confirmed),
    planner: planner(confirmed),
  };
}

interface Named {
  readonly id: string;
  readonly tree: string | null;
}

function isWanted(job: JobFact, { from, to, tree, board, technician }: ReviewFilter): boolean {
  const day = dayText(job.closedAt);
  return (
    (from === null || day >= from) &&
    (to === null || day <= to) &&
    (tree === null || job.tree === tree) &&
    (board === null || job.board === board) &&
    (technician === null || job.technician === technician)
  );
}

export function isFirstTimeFix(job: JobFact, { window }: ReviewFilter, now: number): boolean {
  const { outcome, failed, backAt, closedAt } = job;
  const isBack = backAt !== null && backAt <= now && backAt < closedAt + window * DAY;
  return outcome === 'fixed' && failed === 0 && !isBack;
}

function months(
  jobs: readonly JobFact[],
  isFirst: (job: JobFact) => boolean,
  { window }: ReviewFilter,
  now: number,
): Pick<Review, 'byMonth' | 'centre' | 'trend'> {
  const byName = [...Map.groupBy(jobs, ({ closedAt }) => dayText(closedAt).slice(0, 7))].sort();
  const counted = byName.map(([month, ofMonth]) => {
    const [year = 0, number = 0] = month.split('-').map(Number);
    const isProvisional = Date.UTC(year, number, 1 + window) > now;
    const isOver = Date.UTC(year, number, 1) <= now;
    return { month, isOver, isProvisional, count: ofMonth.filter(isFirst).length, of: ofMonth.length };
  });
  const centre = pChart(counted.filter(({ isProvisional }) => !isProvisional))?.centre ?? null;
  const byMonth = counted.map(({ month, isOver, isProvisional, count, of }) => {
    const limits = centre === null ? { low: 0, high: 1 } : controlPoint(centre, { count, of });
    return {
      month,
      closed: of,
      fixed: count,
      rate: count / of,
      low: limits.low,
      high: limits.high,
      outOfControl:
        'outOfControl' in limits &&
        limits.outOfControl &&
        (!isProvisional || (isOver && count / of < limits.low)),
      provisional: isProvisional,
    };
  });
  const final = counted.flatMap(({ month, isProvisional }) => (isProvisional ? [] : [month]));
  return { byMonth, centre, trend: trend(jobs, final, isFirst) };
}

/** By the correlation, job by job, of the month and whether it was fixed the first time: z² = n r². */
function trend(
  jobs: readonly JobFact[],
  final: readonly string[],
  isFirst: (job: JobFact) => boolean,
): Review['trend'] {
  const points = jobs.flatMap((job) => {
    const month = dayText(job.closedAt).slice(0, 7);
    const [year = 0, number = 0] = month.split('-').map(Number);
    return final.includes(month) ? [{ x: (year - 2020) * 12 + number, y: Number(isFirst(job)) }] : [];
  });
  const mean = (of: (point: { readonly x: number; readonly y: number }) => number): number =>
    points.reduce((sum, point) => sum + of(point), 0) / points.length;
  const [mx, my] = [mean(({ x }) => x), mean(({ y }) => y)];
  const [xx, yy] = [mean(({ x }) => (x - mx) ** 2), mean(({ y }) => (y - my) ** 2)];
  if (final.length < 2 || yy === 0) return null;
  const xy = mean(({ x, y }) => (x - mx) * (y - my));
  const deviations = Math.sqrt(points.length) * (xy / Math.sqrt(xx * yy));
  const chance = 2 * cdf(-Math.abs(deviations), 0, 1);
  return {
    months: final.length,
    perMonth: xy / xx,
    deviations,
    chance,
    differs: Math.abs(deviations) > 2.99998,
  };
}

function curve(
  jobs: readonly JobFact[],
  { window }: ReviewFilter,
  now: number,
): Pick<Review, 'comebackFree' | 'atWindow'> {
  const seen = jobs
    .filter(({ outcome }) => outcome === 'fixed')
    .map(({ closedAt, backAt }) => {
      const isBack = backAt !== null && backAt <= now;
      const passed = Math.max(0, (isBack ? backAt : now) - closedAt);
      return { isBack, days: Math.floor(passed / DAY) + 1 };
    });
  const longest = Math.max(0, window, ...seen.map(({ days }) => days));
  const counts = (isBack: boolean): number[] =>
    Array.from(
      { length: longest + 1 },
      (_, day) => seen.filter((one) => one.isBack === isBack && one.days === day).length,
    );
  const comebackFree = kaplanMeier(counts(true), counts(false), [0, window])
    .filter(({ days }) => days <= 2 * window)
    .map(({ events, ...point }) => ({ ...point, back: events }));
  const gone = comebackFree.find(({ days, survival }) => days < window && survival === 0);
  const atWindow = comebackFree.find(({ days }) => days === window) ?? null;
  return {
    comebackFree,
    atWindow: gone === undefined ? atWindow : { ...gone, days: window, atRisk: 0, back: 0 },
  };
}

function pareto(confirmed: readonly JobFact[]): Review['pareto'] {
  return [...Map.groupBy(confirmed, ({ tree, finding }) => JSON.stringify([tree, finding]))]
    .map(([key, jobs]) => {
      const [tree = '', finding = ''] = JSON.parse(key) as string[];
      return {
        tree,
        finding,
        jobs: jobs.length,
        minutes: jobs.reduce((sum, { atBench }) => sum + atBench, 0) / 60_000,
        parts: jobs.reduce((sum, { parts }) => sum + parts, 0),
      };
    })
    .sort(
      (a, b) =>
        b.jobs - a.jobs || b.minutes - a.minutes || texts(a.tree, b.tree) || texts(a.finding, b.finding),
    );
}

/** Type 7 by sorting. */
function spread(times: readonly number[]): Review['toFinding'] {
  const sorted = times.toSorted((a, b) => a - b);
  if (sorted.length === 0) return null;
  const at = (share: number): number => {
    const place = (sorted.length - 1) * share;
    const [below = 0, above = below] = sorted.slice(Math.floor(place));
    return (below + (place - Math.floor(place)) * (above - below)) / 60_000;
  };
  const mean = sorted.reduce((sum, time) => sum + time, 0) / sorted.length / 60_000;
  const variance = (sampleOf(sorted)?.variance ?? 0) / sorted.length;
  const error = sorted.length < 2 ? null : Math.sqrt(variance) / 60_000;
  return { jobs: sorted.length, mean, lower: at(0.25), median: at(0.5), upper: at(0.75), error };
}

function minutes(jobs: readonly JobFact[]): Review['minutes'] {
  const symptoms = [...Map.groupBy(jobs, ({ tree, symptom }) => JSON.stringify([tree, symptom]))];
  const isTold = (some: readonly JobFact[]): boolean =>
    some.filter(({ toFinding }) => toFinding !== null).length > 1;
  const confidence = 1 - 0.05 / symptoms.filter(([, some]) => isTold(some)).length;
  return symptoms
    .map(([key, ofSymptom]) => {
      const [tree = '', symptom = ''] = JSON.parse(key) as string[];
      const toFinding = spread(ofSymptom.flatMap((job) => job.toFinding ?? []));
      const toProof = spread(ofSymptom.flatMap((job) => job.toProof ?? []));
      const reach =
        toFinding === null || toFinding.error === null
          ? null
          : toFinding.error && toFinding.error * studentQuantile(toFinding.jobs - 1, confidence);
      const meanToFinding =
        toFinding === null || reach === null
          ? null
          : { low: toFinding.mean - reach, high: toFinding.mean + reach };
      return { tree, symptom, toFinding, toProof, expected: null, meanToFinding };
    })
    .filter(({ toFinding, toProof }) => toFinding !== null || toProof !== null)
    .sort(
      (a, b) =>
        Math.max(b.toFinding?.jobs ?? 0, b.toProof?.jobs ?? 0) -
          Math.max(a.toFinding?.jobs ?? 0, a.toProof?.jobs ?? 0) ||
        texts(a.tree, b.tree) ||
        texts(a.symptom, b.symptom),
    );
}
