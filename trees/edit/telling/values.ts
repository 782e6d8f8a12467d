import { READING_UNITS, valueAt } from '../../document/index.ts';
import { formatReading } from '../../belief/index.ts';
import { isList, isRecord, type DraftDocument, type Json } from '../json.ts';
import { changeName, quoted, resultName, stateName, stepName, testName, wayName } from './names.ts';
import { patternOf } from './pattern.ts';

type Words = (document: DraftDocument, value: Json, place: readonly string[]) => string;

const INSTRUMENT_WORDS: Readonly<Record<string, string>> = {
  'dc-volts': 'DC volts',
  ohms: 'ohms',
  continuity: 'continuity',
  diode: 'diode test',
  'dc-amps': 'DC amps',
  scope: 'scope',
  eye: 'by eye',
  ear: 'by ear',
  hand: 'by hand',
};

const test: Words = (document, value) => testName(document, String(value));
const state: Words = (document, value, place) => stateName(document, place.at(-1) ?? '', String(value));
const ownState: Words = (document, value, [, axis = '']) => stateName(document, axis, String(value));
const limit: Words = (document, value, place) => limitWords(document, place, Number(value));
const way: Words = (document, value, [, symptom = '']) =>
  wayName(document, String(isRecord(value) ? (value.go ?? '') : value), symptom);

const WORDS: Readonly<Record<string, Words>> = {
  unit: (_, value) => quoted(isRecord(value) ? String(value.family ?? '') : String(value)),
  'bench/*/start': ownState,
  'bench/*/states': (document, value, [, axis = '']) =>
    listed(value, (one) => stateName(document, axis, one)),
  'bench/*/states/*': (_, value) => quoted(titleIn(value)),
  'bench/*/changes/#': (document, value, [, axis = '']) =>
    `${changeName(document, axis, value)}, ${minutesWords(value)}`,
  'bench/*/changes/#/from': ownState,
  'bench/*/changes/#/to': ownState,
  'interlocks/#/change/*': state,
  'interlocks/#/until/*': (document, value, [, , , id = '']) =>
    listed(value, (one) => resultName(document, id, one)),
  'interlocks/#/until/*/#': (document, value, [, , , id = '']) => resultName(document, id, String(value)),
  'tests/*/instrument': (_, value) => INSTRUMENT_WORDS[String(value)] ?? String(value),
  'tests/*/needs/*': state,
  'tests/*/picture/file': (_, value) => String(value),
  'tests/*/picture/points/#': (_, value) => quoted(String(isRecord(value) ? (value.label ?? '') : value)),
  'tests/*/results': (document, value, [, id = '']) => listed(value, (one) => resultName(document, id, one)),
  'tests/*/results/*': (_, value) => quoted(titleIn(value)),
  'tests/*/results/*/band/from': limit,
  'tests/*/results/*/band/to': limit,
  'tests/*/results/*/band/of': test,
  'tests/*/reading/unit': (_, value) => String(value),
  'findings/*/remedy/needs/*': state,
  'findings/*/remedy/parts/#': (_, value) =>
    isRecord(value)
      ? `${quoted(String(value.name ?? ''))}, ${String(value.price ?? 'no price')}`
      : String(value),
  'findings/*/remedy/disturbs/#': test,
  'findings/*/prove/#': test,
  'findings/*/expects/*': expectedWords,
  'findings/*/otherwise': (document, value) => wayName(document, String(value), ''),
  'symptoms/*/first': (document, value, [, symptom = '']) => stepName(document, symptom, String(value)),
  'symptoms/*/steps/*/test': test,
  'symptoms/*/steps/*/then/*': way,
  'symptoms/*/steps/*/then/*/go': way,
};

/** A value of a field as its author would say it: what has a title by its title, limits with their unit, texts in quotes. */
export function valueWords(document: DraftDocument, value: Json, place: readonly string[]): string {
  const words = WORDS[patternOf(place)];
  if (words !== undefined) return words(document, value, place);
  if (typeof value === 'string') return value.trim() === '' ? 'blank' : quoted(value);
  if (isList(value))
    return value.map((one, index) => valueWords(document, one, [...place, String(index)])).join(', ');
  return isRecord(value) ? quoted(titleIn(value)) : String(value);
}

/** A limit of a test's band: in the test's unit, or as a ratio to another test's reading. */
export function limitWords(document: DraftDocument, place: readonly string[], limitValue: number): string {
  const [, id = '', , result = ''] = place;
  const of = valueAt(document, ['tests', id, 'results', result, 'band', 'of']);
  if (typeof of === 'string') return `${String(limitValue)} × ${testName(document, of)}`;
  const unit = valueAt(document, ['tests', id, 'reading', 'unit']);
  const known = READING_UNITS.find((one) => one === unit);
  return known === undefined ? String(limitValue) : formatReading(limitValue, known);
}

function expectedWords(document: DraftDocument, value: Json, [, , , id = '']: readonly string[]): string {
  if (!isRecord(value)) return resultName(document, id, String(value));
  return Object.entries(value)
    .map(
      ([result, share]) =>
        `${resultName(document, id, result)} ${String(Math.round(Number(share) * 1000) / 10)} %`,
    )
    .join(', ');
}

function listed(value: Json, name: (id: string) => string): string {
  return isList(value) ? value.map((one) => name(String(one))).join(', ') : String(value);
}

function titleIn(value: Json | undefined): string {
  return isRecord(value) && typeof value.title === 'string' ? value.title : '';
}

/** The minutes of a test, remedy or changeover. */
export function minutesWords(part: Json | undefined): string {
  const minutes = isRecord(part) ? part.minutes : undefined;
  return typeof minutes === 'number' ? `${String(minutes)} min` : 'no minutes given';
}
