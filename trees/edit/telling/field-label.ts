import type { DraftDocument } from '../json.ts';
import { keysAt } from '../acts/keys-at.ts';
import { labelOf, NO_LABEL } from './labels.ts';
import { axisName, changeName, resultName, testName, testOf } from './names.ts';
import { patternOf } from './pattern.ts';
import { valueAt } from '../../document/index.ts';

type Place = readonly string[];
type Label = (document: DraftDocument, place: Place) => string;

/**
 * What the form calls a field, a list or a section, where a sentence about what has changed calls it otherwise: by its number
 * in the form, as its title may be what is missing.
 */
const IN_FORM: Readonly<Record<string, Label>> = {
  'bench/*/states': () => 'States',
  'bench/*/states/*': stateNumber,
  'bench/*/states/*/title': stateNumber,
  'bench/*/changes': () => 'Changeovers',
  'bench/*/changes/#': (document, place) =>
    upper(changeName(document, place[1] ?? '', valueAt(document, place) as never)),
  'interlocks/#/change': () => 'Barred changeover',
  'interlocks/#/change/*': (document, [, , , axis = '']) => `Into, of ${axisName(document, axis)}`,
  'interlocks/#/until': () => 'Until',
  'interlocks/#/until/*': (document, [, , , test = '']) => `Until, ${testName(document, test)}`,
  'interlocks/#/until/*/#': (document, [, , , test = '']) => `Until, ${testName(document, test)}`,
  'tests/*/reading': () => 'Answered by',
  'tests/*/results': () => 'Results',
  'tests/*/results/*': resultNumber,
  'tests/*/results/*/title': resultNumber,
  'tests/*/results/*/band': (document, [, test = '', , id = '']) =>
    `Limits of ${resultName(document, test, id)}`,
  'findings/*/remedy': () => 'Remedy',
  'findings/*/remedy/steps': () => 'Steps of the remedy',
  'findings/*/prove': () => 'Proof',
  symptoms: () => 'Symptoms',
  'symptoms/*/first': () => 'Path',
  'symptoms/*/weights': () => 'Weights',
  'symptoms/*/steps/*/then': () => 'Branches',
  'symptoms/*/steps/*/then/*': branch,
  'symptoms/*/steps/*/then/*/go': branch,
};

/** Entries that the form counts: its own word, then their number. */
const COUNTED = /^(?:Caution|Step|Board|Part|Proof|Point)(?= |$)/;

/**
 * What the form calls the field at a place, counted where the form counts it; null where it has no words for it. Of what a
 * section holds, the label stands first and the section after it: “Step 1 of the remedy”.
 */
export function fieldLabel(document: DraftDocument, place: Place): string | null {
  if (place[2] === 'expects' && place.length === 5) return share(document, place);
  const own = IN_FORM[patternOf(place)];
  if (own !== undefined) return own(document, place);
  const label = labelOf(document, place, NO_LABEL);
  if (label === NO_LABEL) return null;
  const number = place.findLast((key) => /^\d+$/.test(key));
  return number === undefined ? label : label.replace(COUNTED, `$& ${String(Number(number) + 1)}`);
}

/** A share is labelled by its result; no field of a file’s is called so. */
function share(document: DraftDocument, [, , , test = '', id = '']: Place): string {
  return `${resultName(document, test, id).slice(1, -1)}, of what ${testName(document, test)} gives`;
}

function resultNumber(document: DraftDocument, [, test = '', , id = '']: Place): string {
  return `Result ${ordinal(document, ['tests', test, 'results'], id)}`;
}

function stateNumber(document: DraftDocument, [, axis = '', , id = '']: Place): string {
  return `State ${ordinal(document, ['bench', axis, 'states'], id)}`;
}

function branch(document: DraftDocument, [, symptom = '', , step = '', , id = '']: Place): string {
  return `Branch ${resultName(document, testOf(document, symptom, step), id)}`;
}

function ordinal(document: DraftDocument, place: Place, id: string): string {
  return String(keysAt(document, [...place]).indexOf(id) + 1);
}

function upper(words: string): string {
  return `${words.slice(0, 1).toUpperCase()}${words.slice(1)}`;
}
