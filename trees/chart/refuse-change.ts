import { own, type Tree } from '../document/index.ts';
import { barring } from './interlock.ts';
import type { JobState } from './job.ts';
import { benchTitle, refusal, resultTitles, testTitle } from './refusal.ts';
import { mustLeave } from './safety.ts';
import type { Situation } from './situation.ts';
import type { Refusal } from './standing.ts';

/** A changeover is taken, also by hand and out of turn, if the tree lists it from here and no interlock bars it. */
export function refuseChange(
  tree: Tree,
  { job, bench }: Situation,
  axis: string,
  to: string,
): Refusal | null {
  const known = own(tree.bench, axis);
  if (known === undefined) {
    return refusal('unknown-axis', `This tree's bench has no “${axis}”.`, axesHelp(tree));
  }
  const next = known.changes.filter(({ from }) => from === bench[axis]).map((change) => change.to);
  if (!next.includes(to)) {
    return refusal(
      'no-such-changeover',
      `No changeover leads from “${benchTitle(tree, axis, bench[axis] ?? '')}” to “${benchTitle(tree, axis, to)}”.`,
      next.length === 0
        ? 'None leads on from here.'
        : `From here it can go to ${next.map((one) => `“${benchTitle(tree, axis, one)}”`).join(' or ')}.`,
    );
  }
  const interlock = barring(tree, job, axis, to);
  return interlock === undefined ? null : barred(tree, job, interlock, benchTitle(tree, axis, to));
}

/** Why nothing may be done before the bench is brought out of a state that an interlock bars. */
export function refuseUnsafe(tree: Tree, at: Situation): Refusal | null {
  return mustLeave(tree, at)
    ? refusal(
        'safety-first',
        'The bench stands in a state that an interlock now bars.',
        'Make the changeover shown before anything else.',
      )
    : null;
}

function barred(tree: Tree, job: JobState, index: number, wanted: string): Refusal {
  const interlock = tree.interlocks[index];
  const waits = Object.entries(interlock?.until ?? {}).map(
    ([test, allowed]) => `“${testTitle(tree, test)}” to give ${allowedTitles(tree, test, allowed)}`,
  );
  const since = job.era === 0 ? '' : ' since the last remedy';
  return refusal(
    'barred',
    `${interlock?.because ?? ''} (${wanted})`,
    `This interlock waits for ${waits.join(', and for ')}${since}.`,
  );
}

function allowedTitles(tree: Tree, test: string, allowed: readonly string[]): string {
  const known = own(tree.tests, test);
  return known === undefined ? allowed.join(' or ') : resultTitles(known, allowed);
}

function axesHelp(tree: Tree): string {
  const axes = Object.keys(tree.bench);
  return axes.length === 0 ? 'It has no changeovers.' : `It has: ${axes.join(', ')}.`;
}
