import { destination, own, UNLISTED, type Tree } from '../document/index.ts';
import { leavingNode } from './leaving-node.ts';
import type { Node } from './machine.ts';

/**
 * The region that says where the job is. `routing` sends it where the job's knowledge puts it: an event that may change
 * what the course so far rests on goes through there, every other is taken where the course is.
 */
export function courseNode(tree: Tree): Node {
  const findings = [...Object.keys(tree.findings), UNLISTED];
  return {
    initial: 'routing',
    on: {
      answer: [
        { guard: 'isAllowedContradicting', target: '#contradiction', actions: 'update' },
        { guard: 'isAllowedReplacing', target: '#routing', actions: 'update' },
        { guard: 'allowed', actions: 'update' },
      ],
      correct: { guard: 'allowed', target: '#routing', actions: 'update' },
      settle: { guard: 'allowed', target: '#routing', actions: 'update' },
      'turn-to': Object.keys(tree.tests).map((test) => ({
        guard: { type: 'isAllowedTurnTo' as const, params: { test } },
        target: `#aside.${test}`,
      })),
      'start-remedy': { guard: 'allowed', target: '#routing', actions: 'update' },
      'remedy-done': { guard: 'allowed', target: '#routing', actions: 'update' },
      'give-up-remedy': { guard: 'allowed', target: '#routing', actions: 'update' },
      close: { guard: 'allowed', target: '#closed', actions: 'update' },
    },
    states: {
      routing: routingNode(),
      path: pathNode(tree),
      aside: asideNode(tree),
      finding: findingNode(tree),
      remedy: aboutNode('remedy', findings, (finding) => remedyNode(tree, finding)),
      proof: aboutNode('proof', findings, proofNode),
      contradiction: { id: 'contradiction' },
      leaving: leavingNode(tree),
      adrift: {
        id: 'adrift',
        initial: 'path-ended',
        states: { 'no-path': {}, 'path-ended': {}, skipped: {} },
      },
      mended: { id: 'mended' },
      closed: { id: 'closed', type: 'final' },
    },
  };
}

function routingNode(): Node {
  return {
    id: 'routing',
    entry: 'setOut',
    always: [
      { guard: 'isContradicted', target: '#contradiction' },
      { guard: 'isInHand', target: '#remedy' },
      { guard: 'isProving', target: '#proof' },
      { guard: 'isMended', target: '#mended' },
      { target: '#path' },
    ],
  };
}

function pathNode(tree: Tree): Node {
  const symptoms = Object.entries(tree.symptoms);
  const starts = symptoms.flatMap(([symptom, { first }]) =>
    first === undefined
      ? []
      : [
          {
            guard: { type: 'isSymptom' as const, params: { symptom } },
            target: `#path.${symptom}.${first}`,
          },
        ],
  );
  const paths = symptoms.flatMap(([symptom, { steps }]): [string, Node][] => {
    const nodes = Object.keys(steps).map((step): [string, Node] => [step, stepNode(tree, symptom, step)]);
    const [initial] = nodes[0] ?? [];
    return initial === undefined ? [] : [[symptom, { initial, states: Object.fromEntries(nodes) }]];
  });
  return {
    id: 'path',
    initial: '@start',
    states: {
      '@start': { always: [...starts, { target: '#adrift.no-path' }] },
      ...Object.fromEntries(paths),
    },
  };
}

function stepNode(tree: Tree, symptom: string, id: string): Node {
  const { test, then } = tree.symptoms[symptom]?.steps[id] ?? { test: '', then: {} };
  const onward = Object.entries(then).map(([result, { go }]) => ({
    guard: { type: 'goesBy' as const, params: { test, result } },
    target: target(tree, go, symptom) ?? '#adrift.path-ended',
  }));
  const leaving = {
    guard: { type: 'isLeftOut' as const, params: { test } },
    target: '#leaving',
    actions: { type: 'leave' as const, params: { symptom, step: id } },
  };
  return {
    always: [...onward, leaving],
    on: { skip: { guard: { type: 'isAllowedSkipOf', params: { test } }, actions: 'update' } },
    ...askingNodes(tree, test),
  };
}

/** Where the bench must stand in some way for a test, the state says whether it does. */
function askingNodes(tree: Tree, test: string): Pick<Node, 'initial' | 'states'> {
  if (Object.keys(tree.tests[test]?.needs ?? {}).length === 0) return {};
  const met = { type: 'isMet' as const, params: { test } };
  return {
    initial: 'preparing',
    states: {
      preparing: { always: { guard: met, target: 'asking' } },
      asking: { always: { guard: { type: 'isUnmet', params: { test } }, target: 'preparing' } },
    },
  };
}

function asideNode(tree: Tree): Node {
  const [initial = ''] = Object.keys(tree.tests);
  const nodes = Object.keys(tree.tests).map((test): [string, Node] => [
    test,
    {
      on: {
        answer: [
          { guard: 'isAllowedContradicting', target: '#contradiction', actions: 'update' },
          {
            guard: { type: 'isAllowedAnswerTo', params: { test } },
            target: '#routing',
            actions: 'update',
          },
          { guard: 'allowed', actions: 'update' },
        ],
        skip: {
          guard: { type: 'isAllowedSkipOf', params: { test } },
          target: '#routing',
          actions: 'update',
        },
      },
      ...askingNodes(tree, test),
    },
  ]);
  return {
    id: 'aside',
    initial,
    on: { 'turn-back': { guard: 'isAllowedTurnBack', target: '#routing' } },
    states: Object.fromEntries(nodes),
  };
}

/** A finding whose remedy did not mend leads on where it says, once; then the path has no more to say. */
function findingNode(tree: Tree): Node {
  const [initial = ''] = Object.keys(tree.findings);
  const nodes = Object.entries(tree.findings).map(([finding, { otherwise }]): [string, Node] => {
    const onward = otherwise === undefined ? [] : onwardFrom(tree, finding, otherwise);
    const ended = {
      guard: { type: 'hasFailed' as const, params: { finding } },
      target: '#adrift.path-ended',
    };
    return [finding, { always: [...onward, ended] }];
  });
  return { id: 'finding', initial, states: Object.fromEntries(nodes) };
}

/** A bare step id is a step of the job's own symptom, so the way on is given for each symptom that has it. */
function onwardFrom(tree: Tree, finding: string, otherwise: string) {
  return Object.keys(tree.symptoms).flatMap((symptom) => {
    const onward = target(tree, otherwise, symptom);
    return onward === null
      ? []
      : [
          {
            guard: { type: 'leadsOn' as const, params: { finding, symptom } },
            target: onward,
            actions: { type: 'pass' as const, params: { finding } },
          },
        ];
  });
}

/** The remedy in hand or being proved, by its finding. */
function aboutNode(
  id: 'remedy' | 'proof',
  findings: readonly string[],
  node: (finding: string) => Node,
): Node {
  const which = findings.map((finding) => ({
    guard: { type: 'isAbout' as const, params: { finding } },
    target: `#${id}.${finding}`,
  }));
  const nodes = findings.map((finding): [string, Node] => [finding, node(finding)]);
  return {
    id,
    initial: '@which',
    states: { '@which': { always: which }, ...Object.fromEntries(nodes) },
  };
}

function remedyNode(tree: Tree, finding: string): Node {
  if (Object.keys(own(tree.findings, finding)?.remedy.needs ?? {}).length === 0) return {};
  return {
    initial: 'preparing',
    states: {
      preparing: { always: { guard: 'isRemedyMet', target: 'doing' } },
      doing: { always: { guard: 'isRemedyUnmet', target: 'preparing' } },
    },
  };
}

function proofNode(): Node {
  return {
    initial: 'preparing',
    always: [
      { guard: 'isProofPassed', target: '#mended', actions: 'setMended' },
      { guard: 'isProofFailed', target: '#routing', actions: 'setNotMended' },
    ],
    states: {
      preparing: { always: { guard: 'isProofMet', target: 'asking' } },
      asking: { always: { guard: 'isProofUnmet', target: 'preparing' } },
    },
  };
}

/** The machine's target for a `go` or `otherwise` written in `symptom`'s path; null where no such place is. */
function target(tree: Tree, go: string, symptom: string): string | null {
  const place = destination(go, symptom);
  if (place.kind === 'finding') return `#finding.${place.finding}`;
  const to = own(tree.symptoms, place.symptom);
  const step = place.kind === 'step' ? place.step : to?.first;
  if (to === undefined || step === undefined || !Object.hasOwn(to.steps, step)) return null;
  return `#path.${place.symptom}.${step}`;
}
