import type { Needs, Tree } from '../../document/index.ts';
import { soundResult } from '../answers.ts';
import { answerNow, takings, unsoundNow } from './answer.ts';
import { SAFE } from './bench.ts';
import { byComplaint } from './complaint.ts';
import { state, type Element, type Way } from './element.ts';
import { provable, type Reach, type ReachedStep } from './reach.ts';
import { standFor } from './stand.ts';

/** The region of the course: it alone has ways that need no event wherever it rests, those on from the state that it is in. */
export function courseRegion(tree: Tree, reach: Reach): Element {
  const mended = provable(tree).map((finding) => state(`mended.${finding}`));
  return state('course', {
    states: [
      routing(tree, reach),
      working(tree, reach),
      state('contradiction', { states: Object.keys(tree.tests).map((test) => contradiction(tree, test)) }),
      state('mended', { ways: [{ event: 'rewritten', target: 'routing' }], states: mended }),
    ],
  });
}

/**
 * Where the course sets out, to wherever the job's knowledge puts it. It announces `set-out` and goes by that: by then the
 * other regions have taken in what the event before did, and every finding is free again to be gone past once.
 */
function routing(tree: Tree, { starts }: Reach): Element {
  const about = (attempt: string, place: string) =>
    state(`routing.${place}`, {
      ways: provable(tree).map((finding) => ({
        in: `attempt.${attempt}.${finding}`,
        target: `${place}.${finding}`,
      })),
    });
  const by = (attempt: string, place: string): Way => ({
    event: 'set-out',
    in: `attempt.${attempt}`,
    target: `routing.${place}`,
  });
  const settingOut = state('routing.set-out', {
    raiseOnEntry: 'set-out',
    ways: [by('idle', 'path'), by('in-hand', 'remedy'), by('proving', 'proof'), by('mended', 'mended')],
  });
  return state('routing', {
    states: [
      settingOut,
      state('routing.path', { ways: byComplaint(starts) }),
      about('in-hand', 'remedy'),
      about('proving', 'proof'),
      about('mended', 'mended'),
    ],
  });
}

function working(tree: Tree, reach: Reach): Element {
  const tests = Object.entries(tree.tests);
  const contradictions = tests.flatMap(([test, { results }]) =>
    Object.keys(results).map((result): Way => ({
      event: `contradict.${test}.${result}`,
      target: `contradiction.${test}.${result}`,
    })),
  );
  const ways: readonly Way[] = [
    ...tests.map(([test]) => ({ event: `turn-to.${test}`, target: `aside.${test}` })),
    ...takings(tree),
    ...contradictions,
    { event: 'remedy-done', in: SAFE, raise: 'finish' },
    { event: 'give-up-remedy', in: 'attempt.in-hand', target: 'routing' },
    { event: ['begun', 'era', 'rewritten'], target: 'routing' },
  ];
  return state('working', {
    ways,
    states: [diagnosis(tree, reach), aside(tree), remedies(tree), proofs(tree)],
  });
}

/** Where this is hangs on the answers and skips: with each answer the course sets out again, after a skip it goes on. */
function diagnosis(tree: Tree, reach: Reach): Element {
  const paths =
    reach.steps.length === 0 ? [] : [state('path', { states: reach.steps.map((one) => step(tree, one)) })];
  return state('diagnosis', {
    ways: [{ event: 'answered', target: 'routing' }],
    states: [
      ...paths,
      state('finding', { states: Object.keys(tree.findings).flatMap((id) => finding(reach, tree, id)) }),
      state('adrift', { states: [state('adrift.no-path'), state('adrift.path-ended')] }),
    ],
  });
}

function step(tree: Tree, { id, test, leads }: ReachedStep): Element {
  const by = (place: string) =>
    leads.map(([result, target]): Way => ({ in: `answer.${test}.${place}.${result}`, target }));
  return state(id, {
    ways: ['now', 'old', 'as'].flatMap(by),
    states: standing(tree, id, tree.tests[test]?.needs, 'asking'),
  });
}

/** Where the bench must stand in some way, whether it does: `preparing` until then. */
function standing(
  tree: Tree,
  id: string,
  needs: Needs | undefined,
  met: 'asking' | 'doing',
): readonly Element[] {
  const stand = standFor(tree, needs ?? {});
  if (stand === null) return [];
  return [
    state(`${id}.preparing`, { ways: [{ in: stand.id, target: `${id}.${met}` }] }),
    state(`${id}.${met}`, { ways: [{ event: stand.moved, target: `${id}.preparing` }] }),
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
        { in: `tried.${id}.past`, target: 'adrift.path-ended' },
        { in: failed, target: `leaving.${id}` },
      ],
    }),
    state(`leaving.${id}`, { raiseOnEntry: `pass.${id}`, ways: byComplaint(onward, `pass.${id}`) }),
  ];
}

function aside(tree: Tree): Element {
  const asides = Object.entries(tree.tests).map(([test, { needs }]) =>
    state(`aside.${test}`, {
      ways: [{ event: [`answered.${test}`, `skipped.${test}`], target: 'routing' }],
      states: standing(tree, `aside.${test}`, needs, 'asking'),
    }),
  );
  return state('aside', { ways: [{ event: 'turn-back', target: 'routing' }], states: asides });
}

function remedies(tree: Tree): Element {
  const states = provable(tree).map((id) =>
    state(`remedy.${id}`, {
      states: standing(tree, `remedy.${id}`, tree.findings[id]?.remedy.needs, 'doing'),
    }),
  );
  return state('remedy', { states });
}

function proofs(tree: Tree): Element {
  return state('proof', { states: provable(tree).map((finding) => proof(tree, finding)) });
}

/** A proof goes through its tests in order; any other than the first result of one of them fails it. */
function proof(tree: Tree, finding: string): Element {
  const id = `proof.${finding}`;
  const prove = [...new Set(tree.findings[finding]?.prove ?? [])];
  const passed = { target: `mended.${finding}`, raise: `passed.${finding}` };
  const stages = prove.map((name, place) => {
    const test = tree.tests[name];
    const next = prove[place + 1];
    const sound = answerNow(name, (test && soundResult(test)) ?? '');
    return state(`${id}.test.${name}`, {
      ways: [{ in: sound, ...(next === undefined ? passed : { target: `${id}.test.${next}` }) }],
      states: standing(tree, `${id}.test.${name}`, test?.needs, 'asking'),
    });
  });
  const failures = prove
    .filter((test) => Object.keys(tree.tests[test]?.results ?? {}).length > 1)
    .map((test): Way => ({ in: unsoundNow(test), target: 'routing', raise: `failed.${finding}` }));
  return state(id, { ways: failures, states: stages });
}

function contradiction(tree: Tree, test: string): Element {
  const results = Object.keys(tree.tests[test]?.results ?? {});
  const settled = results.map((result): Way => ({
    event: `settle.${test}.${result}`,
    in: `contradiction.${test}.${result}`,
    target: 'routing',
  }));
  const others: Way = {
    event: [`kept.${test}`, `settle-neither.${test}`, `correct.${test}`],
    target: 'routing',
  };
  return state(`contradiction.${test}`, {
    ways: [...settled, others],
    states: results.map((result) => state(`contradiction.${test}.${result}`)),
  });
}
