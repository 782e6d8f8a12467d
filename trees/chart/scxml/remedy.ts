import type { Tree } from '../../document/index.ts';
import { SAFE, WORKING } from './answer.ts';
import { standsIn } from './bench.ts';
import { state, type Element, type Way } from './element.ts';
import { gate } from './gate.ts';

/** The findings whose remedy the export covers: those that name the tests of their proof. */
export function provable(tree: Tree): readonly string[] {
  return Object.entries(tree.findings).flatMap(([finding, { prove }]) => (prove.length > 0 ? [finding] : []));
}

/** Regions of the remedies: the attempt being made, which remedies did not mend, and when one may be started or is done. */
export function remedyRegions(tree: Tree): readonly Element[] {
  const findings = provable(tree);
  return [attemptRegion(tree, findings), ...findings.flatMap((finding) => findingRegions(tree, finding))];
}

function findingRegions(tree: Tree, finding: string): readonly Element[] {
  const needs = Object.entries(tree.findings[finding]?.remedy.needs ?? {});
  const stands = needs.map(([axis, wanted]) => standsIn(tree, axis, wanted));
  return [
    triedRegion(tree, finding),
    gate(`startable.${finding}`, [
      WORKING,
      { on: 'attempt.none', off: ['attempt.in-hand', 'attempt.proving', 'attempt.mended'] },
      { on: `tried.${finding}.no`, off: [`tried.${finding}.not-mended`] },
    ]),
    gate(`fitting.${finding}`, stands),
    gate(`finishable.${finding}`, [
      WORKING,
      SAFE,
      { on: `fitting.${finding}.open`, off: [`fitting.${finding}.shut`] },
    ]),
  ];
}

function attemptRegion(tree: Tree, findings: readonly string[]): Element {
  const none = state('attempt.none', {
    ways: findings.flatMap((finding) => [
      {
        event: `start-remedy.${finding}`,
        in: `startable.${finding}.open`,
        target: `attempt.in-hand.${finding}`,
        raise: 'begun',
      },
      ...proofTestsOf(tree, finding).map((test): Way => ({
        event: `rewritten.${test}`,
        in: `tried.${finding}.not-mended.last`,
        target: `attempt.proving.${finding}`,
      })),
    ]),
  });
  const inHand = findings.map((finding) =>
    state(`attempt.in-hand.${finding}`, {
      ways: [
        { event: 'give-up-remedy', in: 'working', target: 'attempt.none' },
        {
          event: 'remedy-done',
          in: `finishable.${finding}.open`,
          target: `attempt.proving.${finding}`,
          raise: [`disturb.${finding}`, 'era'],
        },
      ],
    }),
  );
  const proving = findings.map((finding) =>
    state(`attempt.proving.${finding}`, {
      ways: [
        { in: `proof.${finding}.failed`, target: 'attempt.none' },
        { in: `proof.${finding}.passed`, target: `attempt.mended.${finding}` },
      ],
    }),
  );
  const mended = findings.map((finding) =>
    state(`attempt.mended.${finding}`, {
      ways: [{ event: 'rewritten', target: `attempt.proving.${finding}` }],
    }),
  );
  const groups = [
    state('attempt.in-hand', { states: inHand }),
    state('attempt.proving', { states: proving }),
    state('attempt.mended', { states: mended }),
  ];
  return state('attempt', { states: [none, ...groups] });
}

/** The tests whose rewritten answer takes a failed proof up again: its own, and those that interlocks wait for. */
function proofTestsOf(tree: Tree, finding: string): readonly string[] {
  const openers = tree.interlocks.flatMap(({ until }) => Object.keys(until));
  return [...new Set([...(tree.findings[finding]?.prove ?? []), ...openers])];
}

function triedRegion(tree: Tree, finding: string): Element {
  const id = `tried.${finding}`;
  const again = proofTestsOf(tree, finding).map((test): Way => ({
    event: `rewritten.${test}`,
    target: `${id}.no`,
  }));
  return state(id, {
    states: [
      state(`${id}.no`, { ways: [{ in: `proof.${finding}.failed`, target: `${id}.not-mended.last` }] }),
      state(`${id}.not-mended`, {
        states: [
          state(`${id}.not-mended.last`, {
            ways: [...again, { event: 'begun', target: `${id}.not-mended.earlier` }],
          }),
          state(`${id}.not-mended.earlier`),
        ],
      }),
    ],
  });
}
