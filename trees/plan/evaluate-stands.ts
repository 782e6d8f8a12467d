import { legFrom, type Halt, type Leg, type Walking } from './evaluate-leg.ts';
import type { PassBranch, Spot } from './evaluate-spot.ts';
import { spotsOf, type Spots } from './evaluate-spots.ts';
import type { Ways } from './evaluate-ways.ts';

/** A spot with what is known of it, and of what comes after it once that has been asked. */
export interface Stand {
  readonly key: string;
  readonly rank: number;
  readonly spot: Spot;
  leg: Leg | null;
  /** By result of the test that its leg halts at. */
  readonly after: (After | undefined)[];
}

/** Where a result leads, and the branches gone along by it, step and result in turn. */
interface After {
  readonly stand: Stand;
  readonly passed: readonly number[];
}

/** {@link Spots} with what is remembered of them. */
export interface Stands {
  readonly first: Stand;
  readonly leg: (stand: Stand) => Leg;
  /** The stand that a result leads to, at the halt of a stand's leg; `pass` is told the branches that the course goes along. */
  readonly after: (stand: Stand, halt: Halt & { kind: 'test' }, result: number, pass?: PassBranch) => Stand;
}

/** No more stands of one path than this are remembered. */
const MOST_KEPT = 20_000;

/** Of jobs walked for their traffic, which are few, by what they are walked by. */
const kept = new WeakMap<Ways, Stands>();

/** Stands as a sweep meets them; those of jobs walked by the same ways before are remembered, where they are not very many. */
export function standsOf(walking: Walking): Stands {
  if (walking.goal !== 'isolate' || walking.tellsApart !== true) return stands(walking, 0);
  const known = kept.get(walking.ways) ?? stands(walking, MOST_KEPT);
  kept.set(walking.ways, known);
  return known;
}

function stands(walking: Walking, most: number): Stands {
  const spots = spotsOf(walking);
  let count = 0;
  return {
    first: standAt(spots, spots.first),
    leg: (stand) => (stand.leg ??= legFrom(walking, stand.spot)),
    after(stand, { spot, test }, result, pass) {
      const known = stand.after[result];
      if (known !== undefined) return passedAgain(known, pass);
      if (count >= most) return standAt(spots, spots.after(spot, test, result, pass));
      count += 1;
      const passed: number[] = [];
      const next = spots.after(spot, test, result, (step, by) => passed.push(step, by));
      const after = { stand: standAt(spots, next), passed };
      stand.after[result] = after;
      return passedAgain(after, pass);
    },
  };
}

function standAt(spots: Spots, spot: Spot): Stand {
  return { key: spots.key(spot), rank: spots.rank(spot), spot, leg: null, after: [] };
}

function passedAgain({ stand, passed }: After, pass: PassBranch | undefined): Stand {
  if (pass !== undefined)
    for (let at = 0; at < passed.length; at += 2) pass(passed[at] ?? 0, passed[at + 1] ?? 0);
  return stand;
}
