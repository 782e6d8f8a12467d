import type { TwoByTwo } from '../statistics/index.ts';
import { againstAll } from './against-all.ts';
import { byText } from './by-text.ts';
import type { Chosen } from './choose.ts';
import { comebackFree, pointAt } from './comeback-free.ts';
import { together, type ComebackDays } from './comeback-days.ts';
import type { FindingComebacks, Review } from './figures.ts';

type Comebacks = Pick<Review, 'comebackFree' | 'atWindow' | 'comebacksByFinding'>;

/** The curve of all units that were closed as fixed, and how those of each finding come back against all; by the finding's code. */
export function comebacksOf(
  ofCodes: readonly ComebackDays[],
  { names, window }: Pick<Chosen, 'names' | 'window'>,
): Comebacks {
  const all = together(ofCodes);
  const curve = comebackFree(all, window);
  return {
    comebackFree: curve,
    atWindow: pointAt(window, curve),
    comebacksByFinding: byFinding(ofCodes, all, { names, window }),
  };
}

/** By the log-rank test up to the window's end: whoever is in sight on a day on which some are back is as likely to be one as all are. */
function byFinding(
  ofCodes: readonly ComebackDays[],
  all: ComebackDays,
  { names, window }: Pick<Chosen, 'names' | 'window'>,
): readonly FindingComebacks[] {
  const everyone = standing(all, new Uint32Array(all.back.length));
  const inSight = new Uint32Array(all.back.length);
  const compared = ofCodes.flatMap((days, code) => {
    const name = names.findings[code];
    const fixed = standing(days, inSight)[0] ?? 0;
    if (code === 0 || name === undefined || fixed === 0) return [];
    const tables: TwoByTwo[] = [];
    let back = 0;
    for (let day = 1; day <= window; day += 1) {
      const [ours, theirs] = [days.back[day] ?? 0, all.back[day] ?? 0];
      const [left, others] = [inSight[day] ?? 0, everyone[day] ?? 0];
      back += ours;
      if (theirs > 0 && left > 0)
        tables.push([
          [ours, left - ours],
          [theirs - ours, others - left - (theirs - ours)],
        ]);
    }
    const atWindow = pointAt(window, comebackFree(days, window));
    return [{ thing: { tree: name.tree, finding: name.finding, fixed, back, atWindow }, tables }];
  });
  return againstAll(compared).toSorted(
    (a, b) => a.chance - b.chance || byText(a.tree, b.tree) || byText(a.finding, b.finding),
  );
}

/** By day, units that were neither back nor lost from sight just before it, put where they are asked for. */
function standing({ back, lost }: ComebackDays, inSight: Uint32Array): Uint32Array {
  let left = 0;
  for (let day = back.length - 1; day >= 0; day -= 1) {
    left += (back[day] ?? 0) + (lost[day] ?? 0);
    inSight[day] = left;
  }
  return inSight;
}
