import { valueAt } from '../../document/index.ts';
import type { DraftDocument } from '../json.ts';
import { axisName, changeName, findingName, resultName, stateName, testName, testOf } from './names.ts';
import { patternOf } from './pattern.ts';

type Label = string | ((document: DraftDocument, place: readonly string[]) => string);

const result: Label = (document, [, test = '', , id = '']) => resultName(document, test, id);
const branch: Label = (document, [, symptom = '', , step = '', , id = '']) =>
  resultName(document, testOf(document, symptom, step), id);
const state: Label = (document, [, axis = '', , id = '']) => stateName(document, axis, id);
const need: Label = (document, place) => `Needs ${axisName(document, place.at(-1) ?? '')}`;
const change: Label = (document, place) =>
  changeName(document, place[1] ?? '', valueAt(document, place.slice(0, 4)) as never);

const of =
  (words: string, label: Label): Label =>
  (document, place) =>
    `${words} of ${typeof label === 'string' ? label : label(document, place)}`;

/** Fields by the pattern of their place. */
const LABELS: Readonly<Record<string, Label>> = {
  title: 'Title',
  id: 'Id',
  summary: 'Summary',
  unit: 'Units',
  'unit/family': 'Family',
  'unit/boards/#': 'Board',
  'cautions/#': 'Caution',
  'defaults/strength': 'Strength of the authors’ weights',
  'defaults/reliability': 'Reliability of a test',
  'defaults/unlisted': 'Chance of something not in this tree',
  'defaults/fixRate': 'Fix rate of a remedy',
  'defaults/escalate': 'Passing a unit on',
  'defaults/settled': 'Taken as found at',
  'bench/*/title': 'Title',
  'bench/*/start': 'A unit comes in',
  'bench/*/states': 'Order of the states',
  'bench/*/states/*': of('State', state),
  'bench/*/states/*/title': of('Title', state),
  'bench/*/changes/#': 'Changeover',
  'bench/*/changes/#/from': of('From', change),
  'bench/*/changes/#/to': of('To', change),
  'bench/*/changes/#/minutes': of('Minutes', change),
  'bench/*/changes/#/say': of('What to do', change),
  'bench/*/changes/#/cautions/#': of('Caution', change),
  'interlocks/#/because': 'Because',
  'interlocks/#/change/*': (document, place) => `Bars ${axisName(document, place.at(-1) ?? '')}`,
  'interlocks/#/until/*': (document, [, , , test = '']) => `Opened by ${testName(document, test)}`,
  'interlocks/#/until/*/#': (document, [, , , test = '']) =>
    `Result of ${testName(document, test)} that opens it`,
  'tests/*/title': 'Title',
  'tests/*/ask': 'What to do',
  'tests/*/instrument': 'Instrument',
  'tests/*/needs/*': need,
  'tests/*/minutes': 'Minutes',
  'tests/*/cautions/#': 'Caution',
  'tests/*/reliability': 'Reliability',
  'tests/*/picture/file': 'Picture',
  'tests/*/picture/points/#': 'Point on the picture',
  'tests/*/picture/points/#/label': 'Label of a point on the picture',
  'tests/*/picture/points/#/x': 'Point on the picture, from the left',
  'tests/*/picture/points/#/y': 'Point on the picture, from the top',
  'tests/*/reading/unit': 'Answered by',
  'tests/*/results': 'Order of the results, a sound unit’s first',
  'tests/*/results/*': of('Result', result),
  'tests/*/results/*/title': of('Title', result),
  'tests/*/results/*/band/from': of('Lower limit', result),
  'tests/*/results/*/band/to': of('Upper limit', result),
  'tests/*/results/*/band/of': of('Test that the limits are ratios to', result),
  'findings/*/title': 'Title',
  'findings/*/because': 'Because',
  'findings/*/remedy/steps/#': 'Step of the remedy',
  'findings/*/remedy/needs/*': (document, place) =>
    `The remedy needs ${axisName(document, place.at(-1) ?? '')}`,
  'findings/*/remedy/minutes': 'Minutes of the remedy',
  'findings/*/remedy/parts/#': 'Part',
  'findings/*/remedy/parts/#/name': 'Part',
  'findings/*/remedy/parts/#/price': (document, place) =>
    `Price of ${String(valueAt(document, [...place.slice(0, -1), 'name']) ?? 'a part')}`,
  'findings/*/remedy/disturbs/#': 'Disturbed by the remedy',
  'findings/*/remedy/cautions/#': 'Caution of the remedy',
  'findings/*/prove/#': 'Proof',
  'findings/*/expects/*': (document, [, , , test = '']) => `What ${testName(document, test)} gives`,
  'findings/*/otherwise': 'If the remedy does not mend it',
  'symptoms/*/title': 'Title',
  'symptoms/*/first': 'First step',
  'symptoms/*/weights/*': (document, [, , , id = '']) => `Weight of ${findingName(document, id)}`,
  'symptoms/*/steps/*/test': 'Test',
  'symptoms/*/steps/*/then/*': (document, place) => `${as(branch, document, place)} leads to`,
  'symptoms/*/steps/*/then/*/go': (document, place) => `${as(branch, document, place)} leads to`,
  'symptoms/*/steps/*/then/*/weight': of('Weight', branch),
};

function as(label: Label, document: DraftDocument, place: readonly string[]): string {
  return typeof label === 'string' ? label : label(document, place);
}

/** Asks {@link labelOf} to say so where a field has no words of its own. */
export const NO_LABEL = '';

/** What the field at a place is called in words; a field that has no words of its own, by its name in the document. */
export function labelOf(
  document: DraftDocument,
  place: readonly string[],
  otherwise = place.slice(2).join(', ') || place.join(', '),
): string {
  const label = LABELS[patternOf(place)];
  return label === undefined ? otherwise : as(label, document, place);
}
