import { fieldDifferences, pathOf, pointerOf, valueAt } from '../../document/index.ts';
import { isRecord, type DraftDocument, type Json } from '../json.ts';
import type { Conflict, ConflictField } from '../merge/conflict.ts';
import { labelOf } from './labels.ts';
import { bandsWords, movedLimits } from './limits.ts';
import { partName } from './names.ts';
import { contentWords, fieldSentences, tellDifferences } from './tell-differences.ts';
import { valueWords } from './values.ts';

export interface Versions {
  readonly base: DraftDocument;
  readonly theirs: DraftDocument;
  readonly yours: DraftDocument;
}

/** A conflict in words: of which part, what about it, and what each version has there. */
export interface ToldConflict extends Conflict {
  readonly name: string;
  readonly about: string;
  readonly was: string;
  readonly theirs: readonly string[];
  readonly yours: readonly string[];
}

const NOT_THERE = 'Not there';
const TAKEN_OUT = 'Taken out';

/** Puts in words what is to be decided; `versions` are the documents that were merged. */
export function tellConflict(versions: Versions, conflict: Conflict): ToldConflict {
  const { base, theirs, yours } = versions;
  const part = pathOf(conflict.part);
  const holder = [base, yours, theirs].find((one) => valueAt(one, part) !== undefined) ?? base;
  return { ...conflict, name: partName(holder, part), ...wordsOf(versions, conflict, part) };
}

type Words = Pick<ToldConflict, 'about' | 'was' | 'theirs' | 'yours'>;

function wordsOf(versions: Versions, { at, part, fields }: Conflict, place: readonly string[]): Words {
  const { base, theirs, yours } = versions;
  const [field] = fields;
  if (at.endsWith('/*/band')) return limitWords(versions, fields, place[1] ?? '');
  if (field === undefined) return { about: '', was: '', theirs: [], yours: [] };
  if (at === part && isThing(field)) return wholeWords(versions, field, place);
  const words = (document: DraftDocument, value: Json | undefined) =>
    value === undefined ? TAKEN_OUT : valueWords(document, value, pathOf(field.at));
  return {
    about: at.endsWith('/+') ? 'Steps of the remedy put in at one place' : labelOf(base, pathOf(field.at)),
    was: field.base === undefined ? NOT_THERE : words(base, field.base),
    theirs: [
      field.base === undefined && field.theirs === undefined ? NOT_THERE : words(theirs, field.theirs),
    ],
    yours: [field.base === undefined && field.yours === undefined ? NOT_THERE : words(yours, field.yours)],
  };
}

/** The limits in conflict as each side has moved them; all bands where these cannot be told from each other. */
function limitWords(
  { base, theirs, yours }: Versions,
  fields: readonly ConflictField[],
  test: string,
): Words {
  const inConflict = (result: string, end: string) =>
    fields.some(({ at }) => at === pointerOf(['tests', test, 'results', result, 'band', end]));
  const side = (document: DraftDocument) => {
    const moved = movedLimits(base, document, test)?.filter(
      ({ below, above }) => inConflict(below, 'to') || inConflict(above, 'from'),
    );
    return moved === undefined || moved.length === 0
      ? [bandsWords(document, test)]
      : moved.map(({ says }) => says);
  };
  return {
    about: 'Limits between the results',
    was: bandsWords(base, test),
    theirs: side(theirs),
    yours: side(yours),
  };
}

function isThing({ base, theirs, yours }: ConflictField): boolean {
  return [base, theirs, yours].some(isRecord);
}

/** One side has taken a part out that the other has changed, or both have added one under the same id. */
function wholeWords(versions: Versions, field: ConflictField, place: readonly string[]): Words {
  const { base } = versions;
  const side = (document: DraftDocument, value: Json | undefined) => {
    if (value === undefined) return [TAKEN_OUT];
    if (field.base === undefined) return [`As added: ${contentWords(document, place)}`];
    return ['Kept, with changes', ...changeSentences(base, document, field.base, value, place)];
  };
  return {
    about: field.base === undefined ? 'Which of the two' : 'Whether it stays',
    was: field.base === undefined ? NOT_THERE : contentWords(base, place),
    theirs: side(versions.theirs, field.theirs),
    yours: side(versions.yours, field.yours),
  };
}

/** Places are the base's: an interlock may stand elsewhere in the document. A symptom's steps are parts of their own. */
function changeSentences(
  base: DraftDocument,
  document: DraftDocument,
  former: Json,
  value: Json,
  place: readonly string[],
): readonly string[] {
  if (place[0] !== 'symptoms' || place.length !== 2)
    return fieldSentences(base, document, fieldDifferences(former, value, place), place);
  const at = pointerOf(place);
  return tellDifferences(base, document)
    .filter(({ part }) => part === at || part.startsWith(`${at}/`))
    .flatMap(({ part, name, says }) => (part === at ? says : says.map((one) => `${name}: ${one}`)));
}
