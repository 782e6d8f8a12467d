import { barredBy, NOTHING_BARRED, statesFrom, waysOf, type Barred } from './bench-reach.ts';
import { referenceOf } from './band.ts';
import { ENTRIES, errorAt, quote, warningAt, type Problem } from './problem.ts';
import type { Interlock, Tree } from './tree.ts';

/** Interlocks that bar nothing, or that can never be opened. */
export function checkInterlocks(tree: Tree): readonly Problem[] {
  return [
    ...tree.interlocks.flatMap((interlock, index) => formProblems(tree, interlock, index)),
    ...circular(tree),
  ];
}

function formProblems(tree: Tree, { change, until }: Interlock, index: number): readonly Problem[] {
  const at = ['interlocks', index];
  const bare = errorAt(
    [...at, 'change'],
    'interlock-empty',
    'This interlock bars no changeover.',
    'Name the state it bars, by its axis.',
    [[...at, 'change', ENTRIES]],
  );
  const unopened = errorAt(
    [...at, 'until'],
    'interlock-empty',
    'No test opens this interlock.',
    'Name the tests that open it, each with the results that are allowed.',
    [[...at, 'until', ENTRIES]],
  );
  const atStart = Object.entries(change).filter(
    ([axis, state]) => Object.hasOwn(tree.bench, axis) && tree.bench[axis]?.start === state,
  );
  return [
    ...(Object.keys(change).length === 0 ? [bare] : []),
    ...(Object.keys(until).length === 0 ? [unopened] : []),
    ...atStart.map(([axis, state]) => {
      const message = `The bench starts in ${quote(state)}, which this interlock bars.`;
      return errorAt(
        [...at, 'change', axis],
        'interlock-at-start',
        message,
        'Bar a state that the bench is put into, or start in another.',
      );
    }),
  ];
}

/**
 * Interlocks are opened one by one: each whose tests can be made in the states reached so far frees its own. What is
 * still shut when no more can be opened waits for itself, or for others that do. Tests whose states no changeover
 * leads to anyhow are another rule's, and count as makeable.
 */
function circular(tree: Tree): readonly Problem[] {
  const shut = new Set(tree.interlocks.keys());
  for (let before = -1; before !== shut.size;) {
    before = shut.size;
    const barred = barredBy(tree, shut);
    for (const index of [...shut]) {
      const tests = Object.keys(tree.interlocks[index]?.until ?? {});
      if (tests.every((test) => stuckNeed(tree, test, barred) === undefined)) shut.delete(index);
    }
  }
  const barred = barredBy(tree, shut);
  return [...shut].flatMap((index) =>
    Object.keys(tree.interlocks[index]?.until ?? {}).flatMap((test) => {
      const need = stuckNeed(tree, test, barred);
      if (need === undefined) return [];
      const message = `The test ${quote(test)} that opens this interlock needs ${quote(need.axis)} to be ${quote(need.state)}, which stays barred until it has been made.`;
      return [
        errorAt(
          ['interlocks', index, 'until', test],
          'interlock-circular',
          message,
          'Open it by a test that can be made before, or bar less.',
          waysOf(need.axis),
        ),
      ];
    }),
  );
}

/** A need of the test, or of the readings its bands refer to, that only the barring keeps from being met. */
function stuckNeed(
  tree: Tree,
  testId: string,
  barred: Barred,
): { readonly axis: string; readonly state: string } | undefined {
  const seen = new Set<string>();
  for (let id: string | undefined = testId; id !== undefined && !seen.has(id);) {
    seen.add(id);
    const test: Tree['tests'][string] | undefined = Object.hasOwn(tree.tests, id)
      ? tree.tests[id]
      : undefined;
    for (const [axis, state] of Object.entries(test?.needs ?? {})) {
      if (isReached(tree, axis, state, NOTHING_BARRED) && !isReached(tree, axis, state, barred))
        return { axis, state };
    }
    id = test === undefined ? undefined : referenceOf(test);
  }
  return undefined;
}

function isReached(tree: Tree, axisId: string, state: string, barred: Barred): boolean {
  const axis = Object.hasOwn(tree.bench, axisId) ? tree.bench[axisId] : undefined;
  return axis !== undefined && statesFrom(axisId, axis, axis.start, barred).has(state);
}

/**
 * Warnings about interlocks that a bench needs: a power state that can be reached though nothing has been measured,
 * and a state watched by an interlock that cannot be left for the start once every interlock has closed again.
 */
export function warnOfInterlocks(tree: Tree): readonly Problem[] {
  const allShut = barredBy(tree, tree.interlocks.keys());
  return Object.entries(tree.bench).flatMap(([id, axis]) => {
    const isPower = id === 'power' || /^(?:power|supply)\b/i.test(axis.title);
    const free = [...statesFrom(id, axis, axis.start, allShut)].filter(
      (state) => isPower && state !== axis.start,
    );
    const watched = [...statesFrom(id, axis, axis.start, NOTHING_BARRED)].filter((state) =>
      allShut(id, state),
    );
    const stuck = watched.filter((state) => !statesFrom(id, axis, state, allShut).has(axis.start));
    return [
      ...free.map((state) => {
        const message = `Power can be put to ${quote(state)} with no interlock in the way.`;
        return warningAt(
          ['bench', id, 'states', state],
          'power-without-interlock',
          message,
          'Add an interlock that bars it until the supply has been measured to be clear of ground.',
          [['interlocks', ENTRIES], ...tree.interlocks.map((_, index) => ['interlocks', index, 'change'])],
        );
      }),
      ...stuck.map((state) => {
        const message = `Once interlocks have closed after a remedy, no free changeover leads from ${quote(state)} back to ${quote(axis.start)}.`;
        return warningAt(
          ['bench', id, 'states', state],
          'no-safe-way-back',
          message,
          `Add a changeover straight to ${quote(axis.start)}.`,
          waysOf(id),
        );
      }),
    ];
  });
}
