import { own, type Interlock, type Tree } from '../../../../trees/document/index.ts';
import type { Change } from '../../../../trees/edit/index.ts';

/** The changes that have an interlock bar another axis in the place of one; into that axis’ first state that is not its start. */
export function changesToAxis(
  tree: Tree,
  index: number,
  interlock: Interlock,
  former: string,
  axis: string,
): readonly Change[] {
  if (former === axis || own(interlock.change, axis) !== undefined) return [];
  const known = own(tree.bench, axis);
  const states = Object.keys(known?.states ?? {});
  const state = states.find((one) => one !== known?.start) ?? states[0];
  if (state === undefined) return [];
  const value = Object.fromEntries(
    Object.entries(interlock.change).map(([each, into]) => (each === former ? [axis, state] : [each, into])),
  );
  return [{ do: 'set', path: ['interlocks', index, 'change'], value }];
}

/** The changes that have a result open an interlock, or no longer. The last one stays: without any it could never be opened. */
export function changesToAllowed(
  tree: Tree,
  index: number,
  interlock: Interlock,
  place: { readonly test: string; readonly result: string },
  allowed: boolean,
): readonly Change[] {
  const former = own(interlock.until, place.test) ?? [];
  const order = Object.keys(own(tree.tests, place.test)?.results ?? {});
  const wanted = allowed ? [...former, place.result] : former.filter((one) => one !== place.result);
  const value = [...new Set(wanted)].toSorted((a, b) => order.indexOf(a) - order.indexOf(b));
  return value.length === 0 ? [] : [{ do: 'set', path: ['interlocks', index, 'until', place.test], value }];
}
