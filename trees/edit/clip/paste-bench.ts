import { isList, isRecord, type Json, type JsonObject } from '../json.ts';
import type { Pasting } from './pasting.ts';
import { entriesOf, nameOf, needsOf, recordIn } from './parts-of.ts';

/**
 * The needs of a part as they can be met in the document, where axes and states that it lacks are put in with the changeovers
 * that lead to them. A need that neither clip nor document knows is left out.
 */
export function pasteNeeds(pasting: Pasting, part: JsonObject): JsonObject {
  const kept = needsOf(part).filter(([axis, state]) => hasState(pasting, axis, state));
  return Object.fromEntries(kept);
}

/** The axis as the document will have it. */
export function axisHere({ document, added }: Pasting, axis: string): JsonObject {
  return added.bench.get(axis) ?? recordIn(recordIn(document, 'bench'), axis);
}

function hasState(pasting: Pasting, axis: string, state: string): boolean {
  const here = axisHere(pasting, axis);
  const source = recordIn(pasting.clip.bench, axis);
  const isKnown = Object.hasOwn(recordIn(source, 'states'), state);
  if (Object.hasOwn(recordIn(here, 'states'), state)) {
    if (isKnown) tellOtherTitle(pasting, axis, state);
    return true;
  }
  if (!isKnown) return false;
  if (Object.keys(recordIn(here, 'states')).length === 0) putAxis(pasting, axis, source);
  else putStates(pasting, axis, here, source, state);
  return true;
}

function putAxis(pasting: Pasting, axis: string, source: JsonObject): void {
  pasting.added.bench.set(axis, source);
  for (const state of Object.keys(recordIn(source, 'states'))) pasting.states.add(`${axis}/${state}`);
  pasting.notes.push(`The bench states of ${nameOf(source, axis)} come along.`);
}

/** The state, those that lie on the changeovers to it, and these changeovers. */
function putStates(
  pasting: Pasting,
  axis: string,
  here: JsonObject,
  source: JsonObject,
  state: string,
): void {
  const states = recordIn(here, 'states');
  const wanted = new Set([state]);
  const ways = changesOf(source);
  for (const id of wanted)
    for (const { from, to } of ways)
      if (from === id || to === id)
        for (const end of [from, to])
          if (typeof end === 'string' && !Object.hasOwn(states, end)) wanted.add(end);
  const put = entriesOf(recordIn(source, 'states')).filter(([id]) => wanted.has(id));
  const changes = ways.filter(({ from, to }) => wanted.has(String(from)) || wanted.has(String(to)));
  pasting.added.bench.set(axis, {
    ...here,
    states: { ...states, ...Object.fromEntries(put) },
    changes: [...changesOf(here), ...changes],
  });
  for (const [id, one] of put) {
    pasting.states.add(`${axis}/${id}`);
    pasting.notes.push(`The state ${nameOf(one, id)} of ${nameOf(here, axis)} comes along.`);
  }
}

function changesOf(axis: JsonObject): readonly JsonObject[] {
  return isList(axis.changes) ? axis.changes.filter((change: Json) => isRecord(change)) : [];
}

/** One id may mean two things in two trees: the author is to look at it. */
function tellOtherTitle(pasting: Pasting, axis: string, state: string): void {
  const there = nameOf(recordIn(recordIn(recordIn(pasting.clip.bench, axis), 'states'), state), state);
  const here = nameOf(recordIn(recordIn(axisHere(pasting, axis), 'states'), state), state);
  const note = `The bench state ${there} it was copied with is ${here} here: check that this is the same.`;
  if (there !== here && !pasting.notes.includes(note)) pasting.notes.push(note);
}
