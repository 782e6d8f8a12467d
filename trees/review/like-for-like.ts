import type { TwoByTwo } from '../statistics/index.ts';
import { againstAll } from './against-all.ts';
import { byText } from './by-text.ts';
import type { FactNames } from './fact.ts';
import type { Review } from './figures.ts';
import { fixOf, type FixTable } from './fix-table.ts';

/** First-time fix of the jobs whose window has passed. */
interface Judged {
  readonly closed: number;
  readonly fixed: number;
}

/**
 * Technicians against all jobs of the same symptoms, so that nobody looks worse for the harder units: over all their symptoms, and
 * symptom by symptom. `pairs` are by symptom and technician, `symptoms` by symptom: entry symptom x technicians + technician.
 */
export function likeForLike(
  pairs: FixTable,
  symptoms: FixTable,
  names: FactNames,
): Pick<Review, 'likeForLike' | 'technicianSymptoms'> {
  const people = names.technicians.length;
  const of = names.technicians.flatMap((technician, person) => {
    const all = names.symptoms.flatMap(({ tree, symptom }, code) => {
      const own = fixOf(pairs, code * people + person).judged;
      const tables = [against(own, fixOf(symptoms, code).judged)];
      return own.closed === 0 || code === 0 ? [] : [{ thing: { technician, tree, symptom, ...own }, tables }];
    });
    const sum = (key: keyof Judged): number => all.reduce((so, { thing }) => so + thing[key], 0);
    const thing = { technician, closed: sum('closed'), fixed: sum('fixed') };
    return person === 0 || all.length === 0
      ? []
      : [{ all, whole: { thing, tables: all.flatMap(({ tables }) => tables) } }];
  });
  return {
    likeForLike: againstAll(of.map(({ whole }) => whole)).toSorted((a, b) =>
      byText(a.technician, b.technician),
    ),
    technicianSymptoms: againstAll(of.flatMap(({ all }) => all)).toSorted(
      (a, b) => byText(a.technician, b.technician) || byText(a.tree, b.tree) || byText(a.symptom, b.symptom),
    ),
  };
}

function against(own: Judged, all: Judged): TwoByTwo {
  const others = { closed: all.closed - own.closed, fixed: all.fixed - own.fixed };
  return [
    [own.fixed, own.closed - own.fixed],
    [others.fixed, others.closed - others.fixed],
  ];
}
