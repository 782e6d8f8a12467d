import type { Tree } from '../../document/index.ts';
import { state, type Element, type Way } from './element.ts';
import { provable, type Reach } from './reach.ts';
import { standFor } from './stand.ts';

/** Regions of the remedies: the attempt being made, and for each finding whether its remedy was tried and did not mend. */
export function remedyRegions(tree: Tree, reach: Reach): readonly Element[] {
  return [attemptRegion(tree), ...provable(tree).map((finding) => triedRegion(reach, finding))];
}

function attemptRegion(tree: Tree): Element {
  const findings = provable(tree);
  const begin = findings.map((finding) => ({
    event: `begin.${finding}`,
    target: `attempt.in-hand.${finding}`,
    raise: 'begun',
  }));
  const proving = findings.map((finding) =>
    state(`attempt.proving.${finding}`, {
      ways: [
        { event: `failed.${finding}`, target: `attempt.not-mended.${finding}` },
        { event: `passed.${finding}`, target: `attempt.mended.${finding}` },
      ],
    }),
  );
  const mended = findings.map((finding) =>
    state(`attempt.mended.${finding}`, {
      ways: [{ event: 'rewritten', target: `attempt.proving.${finding}` }],
    }),
  );
  const idle = [state('attempt.none'), ...findings.map((finding) => notMended(tree, finding))];
  const giveUp = { event: 'give-up-remedy', in: 'working', target: 'attempt.none' };
  return state('attempt', {
    states: [
      state('attempt.idle', { ways: begin, states: idle }),
      state('attempt.in-hand', { ways: [giveUp], states: findings.map((finding) => inHand(tree, finding)) }),
      state('attempt.proving', { states: proving }),
      state('attempt.mended', { states: mended }),
    ],
  });
}

/**
 * The last attempt failed, until an answer is rewritten that bears on its proof: one of the proof's own, or one that an
 * interlock waits for. A contradiction that is still to be settled shows that the proof is taken up again for these, too.
 */
function notMended(tree: Tree, finding: string): Element {
  const openers = tree.interlocks.flatMap(({ until }) => Object.keys(until));
  const tests = [...new Set([...(tree.findings[finding]?.prove ?? []), ...openers])];
  return state(`attempt.not-mended.${finding}`, {
    ways: [
      {
        event: tests.map((test) => `rewritten.${test}`),
        target: `attempt.proving.${finding}`,
        raise: `again.${finding}`,
      },
    ],
  });
}

function inHand(tree: Tree, finding: string): Element {
  const stand = standFor(tree, tree.findings[finding]?.remedy.needs ?? {});
  const finish: Way = {
    event: 'finish',
    ...(stand === null ? {} : { in: stand.id }),
    target: `attempt.proving.${finding}`,
    raise: [`disturb.${finding}`, 'era'],
  };
  return state(`attempt.in-hand.${finding}`, { ways: [finish] });
}

/** Where the finding leads on otherwise, also whether the course has gone past it since setting out. */
function triedRegion(reach: Reach, finding: string): Element {
  const id = `tried.${finding}`;
  const ahead = state(`${id}.ahead`, { ways: [{ event: `pass.${finding}`, target: `${id}.past` }] });
  const past = state(`${id}.past`, { ways: [{ event: 'set-out', target: `${id}.ahead` }] });
  return state(id, {
    states: [
      state(`${id}.no`, {
        ways: [
          { event: `start-remedy.${finding}`, in: 'working', raise: `begin.${finding}` },
          { event: `failed.${finding}`, target: `${id}.not-mended` },
        ],
      }),
      state(`${id}.not-mended`, {
        ways: [{ event: `again.${finding}`, target: `${id}.no` }],
        states: reach.otherwise.has(finding) ? [ahead, past] : [],
      }),
    ],
  });
}
