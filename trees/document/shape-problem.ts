import type { z } from 'zod';
import { pointerOf } from './pointer.ts';
import { errorAt, quote, type Problem } from './problem.ts';
import { GO_PATTERN, PICTURE_PATTERN } from './schema.ts';
import { isHolder, valueAt } from './value-at.ts';

type Issue = z.core.$ZodIssue;
type Path = readonly PropertyKey[];

/** What the schema has against a document, each issue in words of our own at its place in the document. */
export function shapeProblems(issues: readonly Issue[], document: unknown): readonly Problem[] {
  return withoutEchoes(issues).flatMap((issue) => issueProblems(issue, issue.path, document));
}

/** Where a value is of the wrong type, what else the schema has against it (a list's length for a text's) says nothing. */
function withoutEchoes(issues: readonly Issue[]): readonly Issue[] {
  const mistyped = new Set(
    issues.filter(({ code }) => code === 'invalid_type').map(({ path }) => pointerOf(path)),
  );
  return issues.filter(({ code, path }) => code === 'invalid_type' || !mistyped.has(pointerOf(path)));
}

function issueProblems(issue: Issue, path: Path, document: unknown): readonly Problem[] {
  switch (issue.code) {
    case 'invalid_type':
      return [typeProblem(path, issue.expected, valueAt(document, path))];
    case 'unrecognized_keys':
      return issue.keys.map((key) => unknownField([...path, key]));
    case 'invalid_key':
      return [badId(path, String(path.at(-1)))];
    case 'invalid_format':
      return [formatProblem(path, issue.pattern, String(valueAt(document, path)))];
    case 'invalid_value':
      return [valueProblem(path, issue.values, valueAt(document, path))];
    case 'invalid_union':
      return unionProblems(issue, path, document);
    case 'too_big':
      return [tooBig(path, issue)];
    case 'too_small':
      return [tooSmall(path, issue)];
    case 'invalid_element':
    case 'not_multiple_of':
    case 'custom':
      return [errorAt(path, 'wrong-value', 'This value cannot stand here.', SEE_FORMAT)];
  }
}

const SEE_FORMAT = 'Compare it with the document format’s JSON Schema.';

function typeProblem(path: Path, expected: string, value: unknown): Problem {
  const name = quote(String(path.at(-1) ?? 'document'));
  const wanted = TYPE_WORDS[expected] ?? expected;
  if (value === undefined) {
    return missing(path, `Add it; it is ${wanted}.`);
  }
  const message = `${path.length === 0 ? 'The document' : name} should be ${wanted}, not ${typeWords(value)}.`;
  return errorAt(path, 'wrong-type', message, `Write ${wanted} here.`);
}

function missing(path: Path, help: string): Problem {
  return errorAt(path, 'missing', `${quote(String(path.at(-1) ?? 'document'))} is missing.`, help);
}

const TYPE_WORDS: Readonly<Record<string, string>> = {
  string: 'a text in double quotes',
  number: 'a number',
  array: 'a list in [ ]',
  object: 'an object in { }',
  record: 'an object in { }',
};

function typeWords(value: unknown): string {
  if (value === null) return 'null';
  if (Array.isArray(value)) return 'a list';
  switch (typeof value) {
    case 'string':
      return 'a text';
    case 'number':
      return 'a number';
    case 'boolean':
      return String(value);
    default:
      return 'an object';
  }
}

function unknownField(path: Path): Problem {
  const message = `${quote(String(path.at(-1)))} is no field of this place.`;
  return errorAt(path, 'unknown-field', message, 'Check its spelling, or take it out.');
}

function formatProblem(path: Path, pattern: string | undefined, value: string): Problem {
  switch (pattern) {
    case String(PICTURE_PATTERN): {
      const help = 'Use small letters, digits and hyphens, then .svg, .png, .jpg or .jpeg; no folder.';
      return errorAt(path, 'bad-file-name', `${quote(value)} cannot be a picture’s file name.`, help);
    }
    case String(GO_PATTERN): {
      const help = 'Write a step’s id, finding:ID, symptom:ID or symptom:ID/STEP.';
      return errorAt(path, 'bad-go', `${quote(value)} says no place to go to.`, help);
    }
    default:
      return badId(path, value);
  }
}

function badId(path: Path, value: string): Problem {
  const help =
    'Ids have at most 80 small letters, digits and single hyphens, and start with a letter, as in rail-5v.';
  return errorAt(path, 'bad-id', `${quote(value)} cannot be an id.`, help);
}

function valueProblem(path: Path, values: readonly unknown[], value: unknown): Problem {
  const allowed = values.map((each) => quote(String(each))).join(', ');
  if (value === undefined)
    return missing(path, values.length === 1 ? `Write ${allowed}.` : `Add one of ${allowed}.`);
  if (path.length === 1 && path[0] === 'format') {
    const help = `Write ${allowed}, or open the file with a release that knows its format.`;
    return errorAt(path, 'wrong-format', 'This is not a tree document of the format read here.', help);
  }
  return errorAt(
    path,
    'not-allowed',
    'This value is not one of those that can stand here.',
    `Use one of ${allowed}.`,
  );
}

/** The only either-or in the format is an expected result: its id, or shares by result. */
function unionProblems(
  issue: Extract<Issue, { code: 'invalid_union' }>,
  path: Path,
  document: unknown,
): readonly Problem[] {
  const value = valueAt(document, path);
  const [asId = [], asShares = []] = issue.errors;
  if (typeof value === 'string' || isHolder(value)) {
    const issues = typeof value === 'string' ? asId : asShares;
    return issues.flatMap((inner) => issueProblems(inner, [...path, ...inner.path], document));
  }
  const message = `What is expected should be a result’s id or shares by result, not ${typeWords(value)}.`;
  return [errorAt(path, 'wrong-type', message, 'Write "good", or { "good": 0.9, "low": 0.1 }.')];
}

function tooBig(path: Path, issue: Extract<Issue, { code: 'too_big' }>): Problem {
  const most = String(issue.maximum);
  if (issue.origin === 'string') {
    return errorAt(path, 'too-long', `This text has more than ${most} characters.`, 'Shorten it.');
  }
  const bound = issue.inclusive === false ? `below ${most}` : `at most ${most}`;
  return errorAt(path, 'out-of-range', `This number should be ${bound}.`, 'Mend the number, or its unit.');
}

function tooSmall(path: Path, issue: Extract<Issue, { code: 'too_small' }>): Problem {
  const least = String(issue.minimum);
  if (issue.origin === 'string') return errorAt(path, 'empty-text', 'This text is empty.', 'Write it.');
  if (issue.origin === 'array') {
    return errorAt(path, 'too-few', `This list needs at least ${least} entry.`, 'Add what belongs in it.');
  }
  const bound = issue.inclusive === false ? `above ${least}` : `at least ${least}`;
  return errorAt(path, 'out-of-range', `This number should be ${bound}.`, 'Mend the number, or its unit.');
}
