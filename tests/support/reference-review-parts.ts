import type { JobFact, Review } from '../../trees/review/index.ts';
import {
  compareShares,
  holm,
  murphy,
  rateOf,
  reliabilityBins,
  sampleOf,
  stratifiedDifference,
} from '../../trees/statistics/index.ts';

/** The percentages shown in confirmed jobs, one by one. */
export function calibration(confirmed: readonly JobFact[]): Review['calibration'] {
  const pairs = confirmed.flatMap((job) =>
    job.shown.map((percent, place) => ({ percent, isRight: place === job.confirmed })),
  );
  const rows = [...Map.groupBy(pairs, ({ percent }) => percent)]
    .sort(([a], [b]) => a - b)
    .map(([percent, some]) => ({
      forecast: percent / 100,
      count: some.length,
      events: some.filter(({ isRight }) => isRight).length,
    }));
  const { brier = null, reliability = null, resolution = null, uncertainty = null } = murphy(rows) ?? {};
  const jobs = confirmed.filter(({ shown }) => shown.length > 0).length;
  const bins = reliabilityBins(rows, 10).map(({ from, to, forecast, observed }) => ({
    from,
    to,
    jobs: confirmed.filter(({ shown }) =>
      shown.some((percent) => percent / 100 >= from && (percent / 100 < to || to === 1)),
    ).length,
    forecast,
    count: observed.of,
    confirmed: observed.count,
    observed: observed.share,
    low: observed.low,
    high: observed.high,
  }));
  return { jobs, percentages: pairs.length, brier, reliability, resolution, uncertainty, bins };
}

/** The last three calendar months against those before, finding by finding. */
export function change(jobs: readonly JobFact[], confirmed: readonly JobFact[]): Review['change'] {
  if (jobs.length === 0) return null;
  const last = new Date(Math.max(...jobs.map(({ closedAt }) => closedAt)));
  const since = Date.UTC(last.getUTCFullYear(), last.getUTCMonth() - 2, 1);
  const [now, before] = [true, false].map((isNow) =>
    confirmed.filter(({ closedAt }) => closedAt >= since === isNow),
  );
  if (!now?.length || !before?.length) return null;
  const names = [...new Set(confirmed.map(({ tree, finding }) => JSON.stringify([tree, finding])))];
  const compared = names.map((name) => {
    const [tree = '', finding = ''] = JSON.parse(name) as string[];
    const of = (some: readonly JobFact[]): number =>
      some.filter((job) => job.tree === tree && job.finding === finding).length;
    const { chance } = compareShares([
      [of(now), now.length - of(now)],
      [of(before), before.length - of(before)],
    ]);
    return { tree, finding, now: of(now), before: of(before), chance };
  });
  const corrected = holm(compared.map(({ chance }) => chance));
  const findings = compared
    .map((one, place) => ({
      ...one,
      corrected: corrected[place] ?? 1,
      differs: (corrected[place] ?? 1) < 0.05,
    }))
    .sort((a, b) => a.chance - b.chance || texts(a.tree, b.tree) || texts(a.finding, b.finding));
  return { since: dayText(since), now: now.length, before: before.length, findings };
}

/** Jobs by what was tried first, against what it was. */
export function triedFirst(jobs: readonly JobFact[]): Review['triedFirst'] {
  const tried = jobs.filter((job) => job.tried !== null);
  return [...Map.groupBy(tried, (job) => JSON.stringify([job.tree, job.tried]))]
    .map(([key, some]) => {
      const [tree = '', finding = ''] = JSON.parse(key) as string[];
      const right = some.filter((job) => job.finding === finding);
      const others = new Set(some.flatMap((job) => job.finding ?? []).filter((one) => one !== finding));
      const instead = [...others]
        .map((one) => ({ finding: one, jobs: some.filter((job) => job.finding === one).length }))
        .sort((a, b) => b.jobs - a.jobs || texts(a.finding, b.finding))
        .slice(0, 5);
      return { tree, finding, ...rateOf(right.length, some.length), instead };
    })
    .sort(
      (a, b) =>
        b.of - b.count - (a.of - a.count) ||
        b.of - a.of ||
        texts(a.tree, b.tree) ||
        texts(a.finding, b.finding),
    );
}

/** The planner's worth, kind by kind. */
export function planner(confirmed: readonly JobFact[]): Review['planner'] {
  const kinds = Map.groupBy(confirmed, ({ tree, symptom, finding }) =>
    JSON.stringify([tree, symptom, finding]),
  );
  const strata = [...kinds.values()].flatMap((jobs) => {
    const times = (isTaken: boolean): number[] =>
      jobs.filter(({ advised }) => advised > 0 === isTaken).flatMap(({ toFinding }) => toFinding ?? []);
    const [done, notDone] = [sampleOf(times(true)), sampleOf(times(false))];
    if (done === null || notDone === null || done.count < 5 || notDone.count < 5) return [];
    return [{ done, notDone }];
  });
  const estimate = (over: 'done' | 'notDone') => {
    const difference = stratifiedDifference(strata, over);
    if (difference === null) return null;
    const { count, total, error, degrees, low, high } = difference;
    const [minutes = 0, ...rest] = [total, error, low, high].map((time) => time / 60_000);
    const [errorMinutes = 0, from = 0, to = 0] = rest;
    return { jobs: count, minutes, error: errorMinutes, degrees, low: from, high: to };
  };
  const taken = confirmed.filter(({ advised }) => advised > 0).length;
  return {
    taken,
    notTaken: confirmed.length - taken,
    kinds: strata.length,
    saved: estimate('done'),
    wouldSave: estimate('notDone'),
  };
}

export function texts(one: string, other: string): number {
  return one < other ? -1 : Number(one > other);
}

export function dayText(moment: number): string {
  return new Date(moment).toISOString().slice(0, 10);
}
