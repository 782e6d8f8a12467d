import { sameMeaning } from '../../document/index.ts';
import { isList, type JsonObject } from '../json.ts';
import { axisHere } from './paste-bench.ts';
import { pasteTest } from './paste-tests.ts';
import type { Pasting } from './pasting.ts';
import { recordIn, textsIn } from './parts-of.ts';

/** Brings the tests that open what bars states put in; these may need further states, which are guarded in turn. */
export function bringOpeners(pasting: Pasting): void {
  for (let states = -1; states < pasting.states.size;) {
    states = pasting.states.size;
    for (const interlock of pasting.clip.interlocks)
      if (barsPut(pasting, interlock))
        for (const test of Object.keys(recordIn(interlock, 'until'))) pasteTest(pasting, test);
  }
}

/** The interlocks that bar states put in, as far as they are not here: a state never comes without what guards it. */
export function guardsOf(pasting: Pasting): readonly JsonObject[] {
  const here = isList(pasting.document.interlocks) ? pasting.document.interlocks : [];
  return pasting.clip.interlocks
    .filter((interlock) => barsPut(pasting, interlock))
    .map((interlock) => interlockHere(pasting, interlock))
    .filter((interlock) => !here.some((one) => sameMeaning(one, interlock, ['interlocks', 0])));
}

function barsPut({ states }: Pasting, interlock: JsonObject): boolean {
  return Object.entries(recordIn(interlock, 'change')).some(([axis, state]) =>
    states.has(`${axis}/${String(state)}`),
  );
}

function interlockHere(pasting: Pasting, interlock: JsonObject): JsonObject {
  const until = Object.keys(recordIn(interlock, 'until')).flatMap((test) => {
    const id = pasteTest(pasting, test);
    return id === undefined ? [] : [[id, textsIn(recordIn(interlock, 'until'), test)] as const];
  });
  const change = Object.entries(recordIn(interlock, 'change')).filter(([axis, state]) =>
    Object.hasOwn(recordIn(axisHere(pasting, axis), 'states'), String(state)),
  );
  return { ...interlock, change: Object.fromEntries(change), until: Object.fromEntries(until) };
}
