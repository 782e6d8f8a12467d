import { printParseErrorCode, visit, type JSONPath } from 'jsonc-parser';
import { DOCUMENT_LIMITS } from './document-limits.ts';
import { errorAt, quote, type Problem } from './problem.ts';

const { levels: DEEPEST, entries: ENTRIES_AT_MOST, values: VALUES_AT_MOST } = DOCUMENT_LIMITS;
const BREAKS_AT_MOST = 200;

interface Container {
  /** Absent for an array. */
  readonly keys?: Set<string>;
  entries: number;
}

interface Scan {
  readonly problems: Problem[];
  readonly open: Container[];
  values: number;
  breaks: number;
  /** Offset up to which the last break of the grammar reaches; what the parser makes of the break begins there. */
  brokenUntil: number;
  /** Offset at which the last text ended. A break right there means that a quote is missing or too many … */
  textUntil: number;
  /** … and that texts and what is between them have changed places to the end of this line. */
  brokenLine: number;
  /** Where the reader is now; the last path supplier it handed out answers for the present place. */
  place: () => JSONPath;
}

/** Ends the visit; the visitor has no other way to stop. */
const STOP = new Error('The scan of a document has stopped.');

/**
 * What a JSON text's own form has wrong, before it is parsed into values: every break of JSON's grammar (comments and
 * trailing commas are breaks), nesting or size beyond all reason, and whatever parsing would silently lose or mend:
 * duplicate and unsafe keys, numbers beyond the range of doubles, lone surrogates, control characters. Never throws.
 */
export function scanJson(text: string): readonly Problem[] {
  const scan: Scan = {
    problems: [],
    open: [],
    values: 0,
    breaks: 0,
    brokenUntil: -1,
    textUntil: -1,
    brokenLine: -1,
    place: () => [],
  };
  try {
    visit(text, visitor(scan), { disallowComments: true, allowTrailingComma: false });
  } catch (thrown) {
    if (thrown !== STOP) throw thrown;
  }
  return scan.problems;
}

function visitor(scan: Scan): Parameters<typeof visit>[1] {
  return {
    onObjectBegin: (_offset, _length, _line, _column, place) => {
      openContainer(scan, place, { keys: new Set(), entries: 0 });
    },
    onArrayBegin: (_offset, _length, _line, _column, place) => {
      openContainer(scan, place, { entries: 0 });
    },
    onObjectEnd: () => void scan.open.pop(),
    onArrayEnd: () => void scan.open.pop(),
    onObjectProperty: (key, offset, length, _line, _column, place) => {
      scan.place = place;
      scan.textUntil = offset + length;
      if (offset >= scan.brokenUntil) checkKey(scan, key);
    },
    onLiteralValue: (value: unknown, offset, length, _line, _column, place) => {
      scan.place = place;
      countValue(scan);
      if (typeof value === 'string') scan.textUntil = offset + length;
      if (offset >= scan.brokenUntil) checkLiteral(scan, value);
    },
    onError: (code, offset, length, line, column) => {
      if (offset <= scan.brokenUntil || line === scan.brokenLine) return;
      scan.brokenUntil = offset + length;
      if (offset === scan.textUntil) scan.brokenLine = line;
      addBreak(scan, printParseErrorCode(code), line, column);
    },
  };
}

function addBreak(scan: Scan, code: string, line: number, column: number): void {
  scan.problems.push(errorAt(scan.place(), 'syntax', syntaxMessage(code, line, column), syntaxHelp(code)));
  scan.breaks += 1;
  if (scan.breaks < BREAKS_AT_MOST) return;
  const message = `The reader gave up here, after ${String(BREAKS_AT_MOST)} breaks of JSON’s grammar.`;
  stopAt(scan, 'too-broken', message, 'Check that this is the right file; mend those shown and check again.');
}

function openContainer(scan: Scan, place: () => JSONPath, container: Container): void {
  scan.place = place;
  countValue(scan);
  scan.open.push(container);
  if (scan.open.length <= DEEPEST) return;
  const message = `Here the file nests more than ${String(DEEPEST)} levels deep.`;
  stopAt(
    scan,
    'too-deep',
    message,
    'A tree document needs fewer than ten levels; take the surplus brackets out.',
  );
}

function countValue(scan: Scan): void {
  scan.values += 1;
  const container = scan.open.at(-1);
  if (container !== undefined) container.entries += 1;
  if ((container?.entries ?? 0) <= ENTRIES_AT_MOST && scan.values <= VALUES_AT_MOST) return;
  const message = `Here the file goes past ${String(ENTRIES_AT_MOST)} entries in one list or ${String(VALUES_AT_MOST)} in all.`;
  stopAt(scan, 'too-many', message, 'Split the document into several trees.');
}

function checkKey(scan: Scan, key: string): void {
  const { problems, open } = scan;
  const keys = open.at(-1)?.keys;
  const at = [...scan.place(), key];
  if (keys?.has(key) === true) {
    const help = 'Keep one of the two; a reader would silently drop the first.';
    problems.push(errorAt(at, 'duplicate-key', `${quote(key)} stands here twice.`, help));
  }
  keys?.add(key);
  if (key === '__proto__') {
    problems.push(errorAt(at, 'unsafe-key', '“__proto__” cannot be a name here.', 'Give it another name.'));
  }
  checkText(scan, key, at);
}

function checkLiteral(scan: Scan, value: unknown): void {
  if (typeof value === 'string') checkText(scan, value, undefined);
  if (typeof value !== 'number' || Number.isFinite(value)) return;
  const help = 'Write a number that a meter could show.';
  scan.problems.push(errorAt(scan.place(), 'number-too-large', 'This number is too large to be kept.', help));
}

function checkText(scan: Scan, text: string, at: readonly PropertyKey[] | undefined): void {
  if (!text.isWellFormed()) {
    const help = 'Type the character itself, or both halves of its escape.';
    scan.problems.push(
      errorAt(at ?? scan.place(), 'lone-surrogate', 'This text has half a character in it.', help),
    );
  }
  // Line breaks and tabs are plain text; the other controls of Unicode (category Cc) are not.
  if (/(?![\n\t])\p{Cc}/u.test(text)) {
    const help = 'Take it out; only line breaks and tabs may stand in a text.';
    const message = 'This text has an invisible control character in it.';
    scan.problems.push(errorAt(at ?? scan.place(), 'control-character', message, help));
  }
}

function stopAt(scan: Scan, rule: string, message: string, help: string): never {
  scan.problems.push(errorAt(scan.place(), rule, message, help));
  throw STOP;
}

function syntaxMessage(code: string, line: number, column: number): string {
  return `Line ${String(line + 1)}, column ${String(column + 1)}: ${SYNTAX[code]?.message ?? 'this is not JSON'}.`;
}

function syntaxHelp(code: string): string {
  return SYNTAX[code]?.help ?? 'Mend this place, then check again for more.';
}

const STRAY = {
  message: 'something that is not JSON stands here',
  help: 'Take it out, or put it in double quotes if it is a text.',
};

const SYNTAX: Readonly<Record<string, { readonly message: string; readonly help: string }>> = {
  InvalidSymbol: STRAY,
  InvalidNumberFormat: { message: 'this is not a number', help: 'Write it like 4.7 or 4.7e3.' },
  UnexpectedEndOfNumber: { message: 'this number breaks off', help: 'Write it like 4.7 or 4.7e3.' },
  PropertyNameExpected: {
    message: 'a name in double quotes should stand here',
    help: 'Put the name in double quotes, or take out the comma before a closing brace.',
  },
  ValueExpected: {
    message: 'a value should stand here',
    help: 'Write the value, or take out the comma before a closing bracket.',
  },
  ColonExpected: {
    message: 'a colon should follow the name',
    help: 'Put a colon between the name and its value.',
  },
  CommaExpected: { message: 'a comma is missing', help: 'Put a comma between the two entries.' },
  CloseBraceExpected: {
    message: 'the file ends inside a { … }',
    help: 'Add the closing brace; perhaps the end of the file is lost.',
  },
  CloseBracketExpected: {
    message: 'the file ends inside a [ … ]',
    help: 'Add the closing bracket; perhaps the end of the file is lost.',
  },
  EndOfFileExpected: {
    message: 'the document ends before this',
    help: 'Take out what follows the last closing brace.',
  },
  InvalidCommentToken: {
    message: 'this is a comment, which JSON does not have',
    help: 'Take the comment out.',
  },
  UnexpectedEndOfComment: {
    message: 'this is a comment, which JSON does not have',
    help: 'Take the comment out.',
  },
  UnexpectedEndOfString: {
    message: 'this text is not closed',
    help: 'Add the closing double quote; write line breaks as \\n.',
  },
  InvalidUnicode: { message: 'this \\u escape is broken', help: 'Write \\u and four hexadecimal digits.' },
  InvalidEscapeCharacter: {
    message: 'this backslash escape does not exist',
    help: 'Write a backslash as \\\\.',
  },
  InvalidCharacter: {
    message: 'a control character stands in this text',
    help: 'Write line breaks as \\n and tabs as \\t.',
  },
};
