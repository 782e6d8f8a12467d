import {
  compareTrees,
  pathOf,
  valueAt,
  type Difference,
  type FieldDifference,
} from '../../document/index.ts';
import { isRecord, type DraftDocument, type Json } from '../json.ts';
import { excerpts } from './excerpt.ts';
import { labelOf } from './labels.ts';
import { movedLimits } from './limits.ts';
import { partName } from './names.ts';
import { patternOf } from './pattern.ts';
import { minutesWords, valueWords } from './values.ts';

/** A difference, what the part is called, and what has become of it in sentences without a full stop. */
export interface Told extends Difference {
  readonly name: string;
  readonly says: readonly string[];
}

/** How two documents differ, part by part, in the words of the trade. */
export function tellDifferences(before: DraftDocument, after: DraftDocument): readonly Told[] {
  return compareTrees(before, after).map((difference) => {
    const document = difference.kind === 'removed' ? before : after;
    const place = pathOf(difference.part);
    return {
      ...difference,
      name: partName(document, place),
      says: says(before, after, difference, place),
    };
  });
}

function says(
  before: DraftDocument,
  after: DraftDocument,
  { kind, moved, fields }: Difference,
  place: readonly string[],
): readonly string[] {
  if (kind === 'added') return [`New: ${contentWords(after, place)}`];
  if (kind === 'removed') return [`Taken out: ${contentWords(before, place)}`];
  return [...fieldSentences(before, after, fields, place), ...(moved ? [standsWords(after, place)] : [])];
}

/** Sentences for the fields of one part that differ; the limits of a test come as one for each limit. */
export function fieldSentences(
  before: DraftDocument,
  after: DraftDocument,
  fields: readonly FieldDifference[],
  [group, id = '']: readonly string[],
): readonly string[] {
  const limits = group === 'tests' && fields.some(isLimit) ? movedLimits(before, after, id) : null;
  const told = limits === null || limits.length === 0 ? fields : fields.filter((field) => !isLimit(field));
  return [
    ...told.map((field) => fieldSentence(before, after, field)),
    ...(limits ?? []).map((limit) => limit.says),
  ];
}

function isLimit({ at }: FieldDifference): boolean {
  return /^tests\/\*\/results\/\*\/band\/(?:from|to)$/.test(patternOf(pathOf(at)));
}

function fieldSentence(before: DraftDocument, after: DraftDocument, field: FieldDifference): string {
  const place = pathOf(field.at);
  const label = upper(labelOf(field.after === undefined ? before : after, place));
  const is = field.after === undefined ? null : valueWords(after, field.after, place);
  const was = field.before === undefined ? null : valueWords(before, field.before, place);
  if (field.movedFrom !== undefined) return `${label} stands elsewhere in its list: ${is ?? ''}`;
  const isEntry = patternOf(place).endsWith('#');
  if (was === null) return isEntry ? `${label} added: ${is ?? ''}` : `${label}: ${is ?? ''}, was not given`;
  if (is === null) return isEntry ? `${label} taken out: ${was}` : `${label}: no longer given, was ${was}`;
  const [now, then] = excerpts(is, was);
  return `${label}: ${now}, was ${then}`;
}

/** What a part that has come or gone holds, in a few words. */
export function contentWords(document: DraftDocument, place: readonly string[]): string {
  const part = valueAt(document, place) as Json | undefined;
  if (!isRecord(part)) return 'nothing';
  const of = (field: string) => valueWords(document, part[field] ?? '', [...place, field]);
  const ids = (field: string) => (isRecord(part[field]) ? Object.keys(part[field]) : []);
  const named = (field: string) =>
    ids(field).map((id) =>
      valueWords(document, (part[field] as Record<string, Json>)[id] ?? '', [...place, field, id]),
    );
  switch (place.length === 4 ? 'step' : place[0]) {
    case 'tests':
      return `${of('instrument')}, ${minutesWords(part)}, results ${named('results').join(', ')}`;
    case 'findings':
      return `a remedy of ${minutesWords(part.remedy)}, because ${of('because')}`;
    case 'symptoms':
      return counted(ids('steps').length, 'step');
    case 'step':
      return counted(ids('then').length, 'branch', 'branches');
    case 'bench':
      return `states ${named('states').join(', ')}`;
    default:
      return ids('change')
        .map((axis) =>
          valueWords(document, (part.change as Record<string, Json>)[axis] ?? '', [...place, 'change', axis]),
        )
        .join(', ');
  }
}

function standsWords(document: DraftDocument, place: readonly string[]): string {
  const holder = valueAt(document, place.slice(0, -1)) as Json | undefined;
  const keys = isRecord(holder) ? Object.keys(holder) : [];
  const own = place.at(-1) ?? '';
  const at = isRecord(holder) ? keys.indexOf(own) : Number(own);
  if (at === 0) return 'Stands first in its list';
  const neighbour = [...place.slice(0, -1), isRecord(holder) ? (keys[at - 1] ?? '') : String(at - 1)];
  return `Stands after ${lower(partName(document, neighbour))} in its list`;
}

function counted(count: number, one: string, many = `${one}s`): string {
  return `${count === 0 ? 'no' : String(count)} ${count === 1 ? one : many}`;
}

function upper(words: string): string {
  return words.charAt(0).toUpperCase() + words.slice(1);
}

function lower(words: string): string {
  return words.charAt(0).toLowerCase() + words.slice(1);
}
