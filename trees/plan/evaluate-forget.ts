import { safetyMove, type Answer } from '../chart/index.ts';
import { own, referenceOf, type Tree } from '../document/index.ts';
import { stepsAhead, stepsWithin, type Ahead } from './evaluate-ahead.ts';
import { alikeResults, type Uses } from './evaluate-alike.ts';
import { situationAt, type Spot } from './evaluate-leg.ts';
import type { World } from './evaluate-world.ts';

/** The era of an answer of which it does not matter whether it was given since the last remedy. */
const LONG_AGO = -1;

/**
 * A spot without what cannot matter any more, so that ways that come to the same thing are one: answers that no step,
 * interlock, reference or proof can use are dropped, results that lead to the same are made the same, and it is forgotten
 * when an answer was given unless an interlock or a proof asks.
 */
export function forgetter(world: World): (spot: Spot) => Spot {
  const { tree, symptom, goal } = world;
  const within = stepsWithin(tree, symptom);
  const alike = alikeResults(tree, within);
  const asks = goal === 'isolate' ? stepsAhead(tree).asks : asksAnyOf(within.map(({ test }) => test));
  const openers = new Set(tree.interlocks.flatMap(({ until }) => Object.keys(until)));
  const references = new Set(Object.values(tree.tests).flatMap((test) => referenceOf(test) ?? []));
  const keepsAll = needsEvidence(world);
  return (spot) => {
    if (isOver(world, spot)) return over(spot);
    if (keepsAll) return spot;
    const { job } = spot;
    const routes = routesFrom(tree, asks, spot);
    const prove = spot.place.kind === 'proof' ? (job.remedies.at(-1)?.prove ?? []) : [];
    const kept = (answer: Answer): readonly Answer[] => {
      const isFresh = answer.era === job.era;
      const uses = {
        routes: routes(answer.test),
        opens: isFresh && openers.has(answer.test),
        proves: isFresh && prove.includes(answer.test),
      };
      if (!isUsed(uses) && !references.has(answer.test)) return [];
      const era = uses.opens || uses.proves ? answer.era : LONG_AGO;
      return [{ ...answer, era, result: alike(answer.test, answer.result, uses) }];
    };
    return { ...spot, job: { ...job, answers: job.answers.flatMap(kept) } };
  };
}

/** A finding that names no proof takes the answers for it, in the order they were given. */
export function needsEvidence({ tree, goal }: World): boolean {
  return goal === 'fix' && Object.values(tree.findings).some(({ prove }) => prove.length === 0);
}

function isUsed({ routes, opens, proves }: Uses): boolean {
  return routes || opens || proves;
}

/** Whether there is nothing left to do from here. */
function isOver({ tree, goal }: World, spot: Spot): boolean {
  const { kind } = spot.place;
  if (kind !== 'adrift' && kind !== 'mended' && !(kind === 'finding' && goal === 'isolate')) return false;
  return safetyMove(tree, situationAt(spot)) === null;
}

function over({ job, place }: Spot): Spot {
  return { job: { ...job, answers: [] }, bench: {}, place, isOver: true };
}

/** A remedy in hand is certain to be done, or the unit passed on: what it disturbs no step will go by. */
function routesFrom(tree: Tree, asks: Ahead['asks'], { place }: Spot): (test: string) => boolean {
  const asked = asks(place);
  if (place.kind !== 'remedy') return asked;
  const disturbs = own(tree.findings, place.finding)?.remedy.disturbs ?? [];
  return (test) => asked(test) && !disturbs.includes(test);
}

function asksAnyOf(tests: readonly string[]): Ahead['asks'] {
  const all = new Set(tests);
  return () => (test) => all.has(test);
}
