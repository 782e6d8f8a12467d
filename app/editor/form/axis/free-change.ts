import type { Axis } from '../../../../trees/document/index.ts';

/** The first changeover that an axis has not got yet, or one between its first states where it has them all. */
export function freeChange(axis: Axis | undefined): { readonly from: string; readonly to: string } {
  const states = Object.keys(axis?.states ?? {});
  const pairs = states.flatMap((from) => states.flatMap((to) => (from === to ? [] : [{ from, to }])));
  const taken = (pair: { from: string; to: string }): boolean =>
    axis?.changes.some(({ from, to }) => from === pair.from && to === pair.to) === true;
  const [first = ''] = states;
  return pairs.find((pair) => !taken(pair)) ?? pairs[0] ?? { from: first, to: first };
}
