import type { AgainstAll, JobFact, Review } from '../../trees/review/index.ts';
import { holm, stratifiedTest, type TwoByTwo } from '../../trees/statistics/index.ts';
import { texts } from './reference-review-parts.ts';

const DAY = 86_400_000;

/** Fixed units by finding against all, day by day of those that were in sight. */
export function comebacksByFinding(
  jobs: readonly JobFact[],
  window: number,
  curveOf: (some: readonly JobFact[]) => Pick<Review, 'atWindow'>,
  now: number,
): Review['comebacksByFinding'] {
  const seen = jobs
    .filter(({ outcome }) => outcome === 'fixed')
    .map((job) => {
      const isBack = job.backAt !== null && job.backAt <= now;
      const until = isBack ? (job.backAt ?? 0) : now;
      return { job, isBack, days: Math.floor(Math.max(0, until - job.closedAt) / DAY) + 1 };
    });
  type Unit = (typeof seen)[number];
  const row = (units: readonly Unit[], day: number): readonly [number, number] => {
    const back = units.filter(({ isBack, days }) => isBack && days === day).length;
    return [back, units.filter(({ days }) => days >= day).length - back];
  };
  const eventful = [...new Set(seen.filter(({ isBack }) => isBack).map(({ days }) => days))]
    .filter((day) => day <= window)
    .sort((a, b) => a - b);
  const groups = Map.groupBy(
    seen.filter(({ job }) => job.finding !== null),
    ({ job }) => JSON.stringify([job.tree, job.finding]),
  );
  const compared = [...groups].map(([key, units]) => {
    const [tree = '', finding = ''] = JSON.parse(key) as string[];
    const others = seen.filter((unit) => !units.includes(unit));
    const back = units.filter(({ isBack, days }) => isBack && days <= window).length;
    const { atWindow } = curveOf(units.map(({ job }) => job));
    return {
      tables: eventful.map((day): TwoByTwo => [row(units, day), row(others, day)]),
      thing: { tree, finding, fixed: units.length, back, atWindow },
    };
  });
  return against(compared).toSorted(
    (a, b) => a.chance - b.chance || texts(a.tree, b.tree) || texts(a.finding, b.finding),
  );
}

/** A job whose window has passed. */
export interface Judged extends JobFact {
  readonly isFirst: boolean;
}

export function likeForLike(judged: readonly Judged[]): Review['likeForLike'] {
  const compared = [...Map.groupBy(judged, ({ technician }) => technician)].map(([technician, own]) => {
    const symptoms = Map.groupBy(judged, nameOf);
    return {
      thing: { technician, closed: own.length, fixed: own.filter(({ isFirst }) => isFirst).length },
      tables: [...symptoms.values()].map((jobs) => tableOf(jobs, technician)),
    };
  });
  return against(compared).toSorted((a, b) => texts(a.technician, b.technician));
}

export function technicianSymptoms(judged: readonly Judged[]): Review['technicianSymptoms'] {
  const pairs = Map.groupBy(judged, (job) => JSON.stringify([job.technician, job.tree, job.symptom]));
  const compared = [...pairs].map(([key, own]) => {
    const [technician = '', tree = '', symptom = ''] = JSON.parse(key) as string[];
    const alike = judged.filter((job) => job.tree === tree && job.symptom === symptom);
    const fixed = own.filter(({ isFirst }) => isFirst).length;
    return {
      thing: { technician, tree, symptom, closed: own.length, fixed },
      tables: [tableOf(alike, technician)],
    };
  });
  return against(compared).toSorted(
    (a, b) => texts(a.technician, b.technician) || texts(a.tree, b.tree) || texts(a.symptom, b.symptom),
  );
}

function nameOf({ tree, symptom }: JobFact): string {
  return JSON.stringify([tree, symptom]);
}

function tableOf(jobs: readonly Judged[], technician: string): TwoByTwo {
  const row = (isOwn: boolean): readonly [number, number] => {
    const some = jobs.filter((job) => (job.technician === technician) === isOwn);
    const fixed = some.filter(({ isFirst }) => isFirst).length;
    return [fixed, some.length - fixed];
  };
  return [row(true), row(false)];
}

/** Holm's correction over those whose margins leave more than one way to come out. */
function against<Thing>(
  compared: readonly { readonly thing: Thing; readonly tables: readonly TwoByTwo[] }[],
): readonly (Thing & AgainstAll)[] {
  const tested = compared.map(({ thing, tables }) => ({ thing, ...stratifiedTest(tables) }));
  const open = tested.filter(({ variance }) => variance > 0);
  const corrected = holm(open.map(({ chance }) => chance));
  return tested.map((one) => {
    const place = open.indexOf(one);
    const after = place < 0 ? 1 : (corrected[place] ?? 1);
    return {
      ...one.thing,
      expected: one.expected,
      chance: one.chance,
      corrected: after,
      differs: after < 0.05,
    };
  });
}
