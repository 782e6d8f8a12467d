import { UNLISTED, type Tree } from '../document/index.ts';
import type { JobEventKind } from './event.ts';
import type { Place } from './place.ts';
import { refuse } from './refuse.ts';
import { refuseAsking } from './refuse-answer.ts';
import { refuseUnsafe } from './refuse-change.ts';
import { refuseWork } from './refusal.ts';
import type { Situation } from './situation.ts';

/** The kinds of event of which the chart takes at least one here. */
export function allowedKinds(
  tree: Tree,
  at: Situation,
  place: Place,
  hasTrail: boolean,
): ReadonlySet<JobEventKind> {
  const allows = new Set<JobEventKind>(hasTrail ? ['take-back'] : []);
  const add = (kind: JobEventKind, isTaken: boolean) => isTaken && allows.add(kind);
  const takes = (event: Parameters<typeof refuse>[3]) => refuse(tree, at, place, event) === null;
  if (at.job.outcome !== undefined) return allows;
  add('close', true);
  add('correct', at.job.answers.length > 0);
  add('settle', at.job.contradiction !== undefined);
  add('change', takesChange(tree, at, place));
  add('answer', takesAnswer(tree, at));
  add('skip', takesSkip(tree, at, place));
  add(
    'turn-to',
    Object.keys(tree.tests).some((test) => takes({ kind: 'turn-to', test })),
  );
  add('turn-back', takes({ kind: 'turn-back' }));
  add('start-remedy', takesStart(tree, at, place));
  add('remedy-done', takes({ kind: 'remedy-done' }));
  add('give-up-remedy', takes({ kind: 'give-up-remedy', reason: 'any' }));
  return allows;
}

function takesChange(tree: Tree, at: Situation, place: Place): boolean {
  return Object.entries(tree.bench).some(([axis, { changes }]) =>
    changes.some(({ to }) => refuse(tree, at, place, { kind: 'change', axis, to }) === null),
  );
}

function takesAnswer(tree: Tree, at: Situation): boolean {
  if (refuseWork(tree, at.job) !== null || refuseUnsafe(tree, at) !== null) return false;
  return Object.keys(tree.tests).some((test) => refuseAsking(tree, at, test) === null);
}

function takesSkip(tree: Tree, at: Situation, place: Place): boolean {
  if (place.kind !== 'step' && place.kind !== 'aside') return false;
  return refuse(tree, at, place, { kind: 'skip', test: place.test, reason: 'any' }) === null;
}

/** A cause outside the tree can be taken in hand whenever any can; `what` must be one not tried yet. */
function takesStart(tree: Tree, at: Situation, place: Place): boolean {
  const tried = at.job.remedies.map(({ what = '' }) => what).join('');
  const untried = `other than ${tried}`;
  return refuse(tree, at, place, { kind: 'start-remedy', finding: UNLISTED, what: untried }) === null;
}
