import { destination, valueAt } from '../../document/index.ts';
import { isRecord, type DraftDocument, type Json } from '../json.ts';

/** Things of a document by what its author calls them; what has no title is named by its id. */

function titled(document: DraftDocument, place: readonly string[]): string {
  const title = valueAt(document, [...place, 'title']);
  return typeof title === 'string' && title.trim() !== '' ? title : (place.at(-1) ?? '');
}

/** Words in quotes, as all names of the author’s stand in sentences. */
export function quoted(words: string): string {
  return `“${words}”`;
}

/** A test’s title in quotes, or its id. */
export function testName(document: DraftDocument, test: string): string {
  return quoted(titled(document, ['tests', test]));
}

/** A finding’s title in quotes, or its id. */
export function findingName(document: DraftDocument, finding: string): string {
  return quoted(titled(document, ['findings', finding]));
}

/** A symptom’s title in quotes, or its id. */
export function symptomName(document: DraftDocument, symptom: string): string {
  return quoted(titled(document, ['symptoms', symptom]));
}

/** The title of an axis of bench states in quotes, or its id. */
export function axisName(document: DraftDocument, axis: string): string {
  return quoted(titled(document, ['bench', axis]));
}

/** A bench state’s title in quotes, or its id. */
export function stateName(document: DraftDocument, axis: string, state: string): string {
  return quoted(titled(document, ['bench', axis, 'states', state]));
}

/** A result’s title in quotes, or its id. */
export function resultName(document: DraftDocument, test: string, result: string): string {
  return quoted(titled(document, ['tests', test, 'results', result]));
}

/** A step by its test, as nothing else of it has a title. */
export function stepName(document: DraftDocument, symptom: string, step: string): string {
  const test = valueAt(document, ['symptoms', symptom, 'steps', step, 'test']);
  return typeof test === 'string' ? testName(document, test) : quoted(step);
}

/** Where a `go` written in a symptom's path leads. */
export function wayName(document: DraftDocument, go: string, symptom: string): string {
  const place = destination(go, symptom);
  if (place.kind === 'finding') return `the finding ${findingName(document, place.finding)}`;
  if (place.kind === 'symptom') return `the path of ${symptomName(document, place.symptom)}`;
  if (place.symptom === '') return `the step ${quoted(place.step)}`;
  const step = `the step ${stepName(document, place.symptom, place.step)}`;
  return place.symptom === symptom ? step : `${step} of ${symptomName(document, place.symptom)}`;
}

/** The test whose results a step's branches are for. */
export function testOf(document: DraftDocument, symptom: string, step: string): string {
  const test = valueAt(document, ['symptoms', symptom, 'steps', step, 'test']);
  return typeof test === 'string' ? test : '';
}

/** A changeover by the states that it leads between. */
export function changeName(document: DraftDocument, axis: string, change: Json | undefined): string {
  const { from = '', to = '' } = isRecord(change) ? change : {};
  return `the changeover from ${stateName(document, axis, String(from))} to ${stateName(document, axis, String(to))}`;
}

/** A part of a tree in a few words, as the head of what is told of it. */
export function partName(document: DraftDocument, part: readonly string[]): string {
  const [group, id = '', , step] = part;
  if (group === 'tests') return `Test ${testName(document, id)}`;
  if (group === 'findings') return `Finding ${findingName(document, id)}`;
  if (group === 'bench') return `Bench states ${axisName(document, id)}`;
  if (group === 'interlocks')
    return `Interlock ${quoted(String(valueAt(document, [...part, 'because']) ?? id))}`;
  if (group !== 'symptoms') return 'The tree itself';
  return step === undefined
    ? `Symptom ${symptomName(document, id)}`
    : `Step ${stepName(document, id, step)} of ${symptomName(document, id)}`;
}
