import type { Tree } from '../../document/index.ts';
import { soundResult } from '../answers.ts';
import { byComplaint } from './complaint.ts';
import { state, type Element, type Way } from './element.ts';
import type { Reach, ReachedStep } from './reach.ts';
import { provable } from './remedy.ts';

/**
 * The region of the course. `routing` announces `set-out`, an internal event: by then the other regions have taken in
 * what the event before did, and every finding is free again to be gone past once.
 */
export function courseRegion(tree: Tree, reach: Reach): Element {
  const tests = Object.entries(tree.tests);
  const contradictions = tests.flatMap(([test, { results }]) =>
    Object.keys(results).map((result): Way => ({
      event: `contradict.${test}.${result}`,
      target: `contradiction.${test}.${result}`,
      isInternal: true,
    })),
  );
  return state('course', {
    ways: contradictions,
    states: [
      state('routing', { raiseOnEntry: 'set-out', ways: routes(tree, reach) }),
      working(tree, reach),
      state('contradiction', { states: tests.map(([test]) => contradictionState(tree, test)) }),
      ...mendedStates(tree),
    ],
  });
}

/** For each finding that a failed remedy can bring the course back to, whether it has been gone past since setting out. */
export function passedRegions(reach: Reach, tree: Tree): readonly Element[] {
  return provable(tree).flatMap((finding) =>
    !reach.otherwise.has(finding)
      ? []
      : [
          state(`passed.${finding}`, {
            states: [
              state(`passed.${finding}.no`, {
                ways: [{ event: `pass.${finding}`, target: `passed.${finding}.yes` }],
              }),
              state(`passed.${finding}.yes`, {
                ways: [{ event: 'set-out', target: `passed.${finding}.no` }],
              }),
            ],
          }),
        ],
  );
}

function routes(tree: Tree, { starts }: Reach): readonly Way[] {
  const about = provable(tree).flatMap((finding): Way[] => [
    { event: 'set-out', in: `attempt.in-hand.${finding}`, target: `remedy.${finding}` },
    { event: 'set-out', in: `attempt.proving.${finding}`, target: `proof.${finding}` },
    { event: 'set-out', in: `attempt.mended.${finding}`, target: `mended.${finding}` },
  ]);
  return [...about, ...byComplaint('set-out', starts)];
}

function working(tree: Tree, reach: Reach): Element {
  const ways = [
    ...Object.keys(tree.tests).map((test): Way => ({ event: `turn-to.${test}`, target: `aside.${test}` })),
    ...provable(tree).map((finding): Way => ({
      event: `start-remedy.${finding}`,
      in: `startable.${finding}.open`,
      target: 'routing',
    })),
    { event: 'era', target: 'routing' },
    { event: 'give-up-remedy', in: 'attempt.in-hand', target: 'routing' },
    ...corrections(tree),
  ];
  return state('working', {
    ways,
    states: [diagnosis(tree, reach), aside(tree), remedies(tree), proofs(tree)],
  });
}

/** Path, findings and adrift: an answer that takes the place of one, or of a skip, sends the course to its start. */
function diagnosis(tree: Tree, reach: Reach): Element {
  const reroutes = Object.keys(tree.tests).flatMap((test): Way[] => [
    { event: `answer.${test}`, in: `answer.${test}.given`, target: 'routing' },
    { event: `answer.${test}`, in: `skip.${test}.as`, target: 'routing' },
  ]);
  const paths =
    reach.steps.length === 0 ? [] : [state('path', { states: reach.steps.map((one) => step(tree, one)) })];
  return state('diagnosis', {
    ways: reroutes,
    states: [
      ...paths,
      state('finding', { states: Object.keys(tree.findings).flatMap((id) => finding(reach, tree, id)) }),
      state('adrift', { states: [state('adrift.no-path'), state('adrift.path-ended')] }),
    ],
  });
}

function step(tree: Tree, { id, test, leads }: ReachedStep): Element {
  const by = (place: string) => leads.map(([result, target]): Way => ({ in: `${place}.${result}`, target }));
  const ways = [...by(`answer.${test}.now`), ...by(`answer.${test}.old`), ...by(`skip.${test}.as`)];
  return state(id, { ways, states: asking(tree, id, test) });
}

/** Where the bench must stand in some way for a test, whether it does. */
function asking(tree: Tree, id: string, test: string): readonly Element[] {
  if (Object.keys(tree.tests[test]?.needs ?? {}).length === 0) return [];
  return [
    state(`${id}.preparing`, { ways: [{ in: `ready.${test}.open`, target: `${id}.asking` }] }),
    state(`${id}.asking`, { ways: [{ in: `ready.${test}.shut`, target: `${id}.preparing` }] }),
  ];
}

function finding(reach: Reach, tree: Tree, id: string): readonly Element[] {
  if (!provable(tree).includes(id)) return [state(`finding.${id}`)];
  const failed = `tried.${id}.not-mended`;
  const onward = reach.otherwise.get(id);
  if (onward === undefined) {
    return [state(`finding.${id}`, { ways: [{ in: failed, target: 'adrift.path-ended' }] })];
  }
  return [
    state(`finding.${id}`, {
      ways: [
        { in: `passed.${id}.yes`, target: 'adrift.path-ended' },
        { in: failed, target: `leaving.${id}` },
      ],
    }),
    state(`leaving.${id}`, {
      raiseOnEntry: `pass.${id}`,
      ways: byComplaint(`pass.${id}`, onward),
    }),
  ];
}

function aside(tree: Tree): Element {
  const asides = Object.keys(tree.tests).map((test) =>
    state(`aside.${test}`, {
      ways: [
        { event: `answer.${test}`, in: `taking.${test}.open`, target: 'routing' },
        { event: `passed-over.${test}`, target: 'routing' },
      ],
      states: asking(tree, `aside.${test}`, test),
    }),
  );
  return state('aside', { ways: [{ event: 'turn-back', target: 'routing' }], states: asides });
}

function remedies(tree: Tree): Element {
  const states = provable(tree).map((id) => {
    const needs = Object.keys(tree.findings[id]?.remedy.needs ?? {});
    if (needs.length === 0) return state(`remedy.${id}`);
    return state(`remedy.${id}`, {
      states: [
        state(`remedy.${id}.preparing`, {
          ways: [{ in: `fitting.${id}.open`, target: `remedy.${id}.doing` }],
        }),
        state(`remedy.${id}.doing`, {
          ways: [{ in: `fitting.${id}.shut`, target: `remedy.${id}.preparing` }],
        }),
      ],
    });
  });
  return state('remedy', { states });
}

/** A proof goes through its tests in order; any other than the first result of one of them fails it. */
function proofs(tree: Tree): Element {
  return state('proof', { states: provable(tree).map((finding) => proof(tree, finding)) });
}

function proof(tree: Tree, finding: string): Element {
  const id = `proof.${finding}`;
  const prove = [...new Set(tree.findings[finding]?.prove ?? [])];
  const stages = prove.map((test, place) => {
    const next = prove[place + 1];
    return state(`${id}.test.${test}`, {
      ways: [{ in: soundId(tree, test), target: next === undefined ? `${id}.passed` : `${id}.test.${next}` }],
      states: asking(tree, `${id}.test.${test}`, test),
    });
  });
  const failures = prove.flatMap((test) =>
    unsoundIds(tree, test).map((active): Way => ({ in: active, target: `${id}.failed` })),
  );
  return state(id, {
    states: [
      state(`${id}.test`, { ways: failures, states: stages }),
      state(`${id}.passed`, { ways: [{ in: `attempt.mended.${finding}`, target: `mended.${finding}` }] }),
      state(`${id}.failed`, { ways: [{ in: `tried.${finding}.not-mended.last`, target: 'routing' }] }),
    ],
  });
}

function contradictionState(tree: Tree, test: string): Element {
  const results = Object.keys(tree.tests[test]?.results ?? {});
  const settlings = [
    ...results.flatMap((result): Way[] => [
      { event: `settle.${test}.${result}`, in: `answer.${test}.now.${result}`, target: 'routing' },
      { event: `settle.${test}.${result}`, in: `contradiction.${test}.${result}`, target: 'routing' },
    ]),
    { event: `settle-neither.${test}`, target: 'routing' },
    { event: `correct.${test}`, target: 'routing' },
  ];
  return state(`contradiction.${test}`, {
    ways: settlings,
    states: results.map((result) => state(`contradiction.${test}.${result}`)),
  });
}

function mendedStates(tree: Tree): readonly Element[] {
  const states = provable(tree).map((finding) => state(`mended.${finding}`));
  return [state('mended', { ways: corrections(tree), states })];
}

function corrections(tree: Tree): readonly Way[] {
  return Object.keys(tree.tests).map((test) => ({
    event: `correct.${test}`,
    in: `answer.${test}.given`,
    target: 'routing',
  }));
}

function soundId(tree: Tree, id: string): string {
  const test = tree.tests[id];
  return `answer.${id}.now.${test === undefined ? '' : (soundResult(test) ?? '')}`;
}

function unsoundIds(tree: Tree, id: string): readonly string[] {
  const [, ...others] = Object.keys(tree.tests[id]?.results ?? {});
  return others.map((result) => `answer.${id}.now.${result}`);
}
