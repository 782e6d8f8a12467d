import type { Tree } from '../document/index.ts';
import type { Node } from './machine.ts';

/**
 * Off the path at a step whose test is left out: on to the step where the path is met again, if it is. The steps are gone
 * through by their tests, since those of a large tree one by one would cost more than all else an event does.
 */
export function leavingNode(tree: Tree): Node {
  const steps = Object.entries(tree.symptoms).flatMap(([symptom, path]) =>
    Object.entries(path.steps).map(([step, { test }]) => ({ symptom, step, test })),
  );
  const byTest = Map.groupBy(steps, ({ test }) => test);
  const tests = [...byTest.keys()].map((test) => ({
    guard: { type: 'isMetBy' as const, params: { test } },
    target: `#leaving.${test}`,
  }));
  const nodes = [...byTest].map(([test, asking]): [string, Node] => [
    test,
    {
      always: asking.map(({ symptom, step }) => ({
        guard: { type: 'isMetAt' as const, params: { symptom, step } },
        target: `#path.${symptom}.${step}`,
      })),
    },
  ]);
  return {
    id: 'leaving',
    initial: '@which',
    states: {
      '@which': { always: [{ guard: 'isNotMet' as const, target: '#adrift.skipped' }, ...tests] },
      ...Object.fromEntries(nodes),
    },
  };
}
