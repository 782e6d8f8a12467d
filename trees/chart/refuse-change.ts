import type { Tree } from '../document/index.ts';
import { barring } from './interlock.ts';
import type { JobState } from './job.ts';
import { own } from './own.ts';
import { benchTitle, refusal } from './refusal.ts';
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
      `No changeover leads from “${bench[axis] ?? ''}” to “${to}”.`,
      next.length === 0 ? 'None leads on from here.' : `From here it can go to: ${next.join(', ')}.`,
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
    ([test, allowed]) => `“${tree.tests[test]?.title ?? test}” to give ${allowed.join(' or ')}`,
  );
  const since = job.era === 0 ? '' : ' since the last remedy';
  return refusal(
    'barred',
    `${interlock?.because ?? ''} (${wanted})`,
    `This interlock waits for ${waits.join(', and for ')}${since}.`,
  );
}

function axesHelp(tree: Tree): string {
  const axes = Object.keys(tree.bench);
  return axes.length === 0 ? 'It has no changeovers.' : `It has: ${axes.join(', ')}.`;
}
