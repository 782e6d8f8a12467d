import { needsOf, NOTHING_BARRED, statesFrom, waysOf, type Need } from './bench-reach.ts';
import { errorAt, quote, type Problem } from './problem.ts';
import type { Axis, Tree } from './tree.ts';

/** Bench states that cannot be got into or out of when something needs it, and changeovers that are none. */
export function checkBench(tree: Tree): readonly Problem[] {
  const needs = needsOf(tree);
  return Object.entries(tree.bench).flatMap(([id, axis]) => [
    ...changeProblems(id, axis),
    ...wayProblems(
      id,
      axis,
      needs.filter((need) => need.axis === id),
    ),
  ]);
}

function changeProblems(id: string, axis: Axis): readonly Problem[] {
  const seen = new Set<string>();
  return axis.changes.flatMap(({ from, to }, index) => {
    const at = ['bench', id, 'changes', index];
    const pair = `${from}/${to}`;
    const again = seen.has(pair);
    seen.add(pair);
    if (from === to) {
      return [
        errorAt(
          at,
          'change-to-itself',
          `This changeover goes from ${quote(from)} to itself.`,
          'Mend “from” or “to”, or take it out.',
        ),
      ];
    }
    if (!again) return [];
    const message = `There already is a changeover from ${quote(from)} to ${quote(to)}.`;
    return [errorAt(at, 'duplicate-change', message, 'Keep one of the two.')];
  });
}

function wayProblems(id: string, axis: Axis, needs: readonly Need[]): readonly Problem[] {
  if (!Object.hasOwn(axis.states, axis.start)) return [];
  const reached = statesFrom(id, axis, axis.start, NOTHING_BARRED);
  const unreachable = needs
    .filter(({ state }) => !reached.has(state))
    .map(({ state, at }) => {
      const message = `No changeovers lead from ${quote(axis.start)} to ${quote(state)}.`;
      const help = `Add a changeover of ${quote(id)} that leads there.`;
      return errorAt(at, 'state-unreachable', message, help, waysOf(id));
    });
  const needed = [...new Set(needs.map(({ state }) => state))].filter((state) => reached.has(state));
  const deadEnds = needed.flatMap((state) => {
    const onward = statesFrom(id, axis, state, NOTHING_BARRED);
    const lost = needed.filter((other) => !onward.has(other));
    if (lost.length === 0) return [];
    const message = `From ${quote(state)} no changeovers lead to ${lost.map(quote).join(', ')}, which is needed too.`;
    const at = ['bench', id, 'states', state];
    return [errorAt(at, 'state-dead-end', message, 'Add the changeover back.', waysOf(id))];
  });
  return [...unreachable, ...deadEnds];
}
