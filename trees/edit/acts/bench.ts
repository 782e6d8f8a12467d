import type { Change } from '../change.ts';
import type { DraftDocument } from '../json.ts';
import { keysAt } from './keys-at.ts';
import type { Made } from './made.ts';
import { newId } from './new-id.ts';
import { append, at, enter } from './put.ts';

/** Adds an axis of the bench with the state a unit comes in and another one, and the changeovers between them. */
export function addAxis(document: DraftDocument, title: string, start: string, other: string): Made {
  const id = newId(title, keysAt(document, ['bench']), 'axis');
  const first = newId(start, [], 'first');
  const second = newId(other, [first], 'second');
  const axis = {
    title,
    start: first,
    states: { [first]: { title: start }, [second]: { title: other } },
    changes: [
      { from: first, to: second, minutes: 1, say: '' },
      { from: second, to: first, minutes: 1, say: '' },
    ],
  };
  return { id, changes: enter(document, ['bench'], id, axis) };
}

/** Adds a state to an axis, with the changeovers between it and the state a unit comes in. */
export function addState(document: DraftDocument, axis: string, title: string): Made {
  const path = ['bench', axis, 'states'];
  const id = newId(title, keysAt(document, path), 'state');
  const start = at(document, ['bench', axis, 'start']);
  const changes = ['bench', axis, 'changes'];
  const there = { from: String(start), to: id, minutes: 1, say: '' };
  const back = { from: id, to: String(start), minutes: 1, say: '' };
  const former = at(document, changes);
  const list = Array.isArray(former) ? former : [];
  return {
    id,
    changes: [
      ...enter(document, path, id, { title }),
      { do: 'set', path: changes, value: [...list, there, back] },
    ],
  };
}

/** Adds a changeover. */
export function addChange(
  document: DraftDocument,
  axis: string,
  from: string,
  to: string,
): readonly Change[] {
  return append(document, ['bench', axis, 'changes'], { from, to, minutes: 1, say: '' });
}

/** Adds an interlock: the changeover into a state is barred until a test has given one of these results. */
export function addInterlock(
  document: DraftDocument,
  change: { readonly axis: string; readonly state: string },
  until: { readonly test: string; readonly results: readonly string[] },
): readonly Change[] {
  return append(document, ['interlocks'], {
    change: { [change.axis]: change.state },
    until: { [until.test]: until.results },
    because: '',
  });
}
