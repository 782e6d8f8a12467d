import { countOf, pathOf, valueAt, type Problem } from '../../../trees/document/index.ts';
import { fieldLabel, type DraftDocument } from '../../../trees/edit/index.ts';
import { quoted } from './read-picture.ts';
import { refuse, type Refusal } from './refusal.ts';

const PROBLEMS_TOLD = 3;

/**
 * Refuses a file that has not the shape of a tree, and says of its problems where they are and what is lacking, to somebody who has
 * picked a file and never looked into one. `document` is what the file holds, undefined where it is no JSON.
 */
export function tellUnreadable(problems: readonly Problem[], document: unknown): Refusal {
  if (document === undefined) return refuse(damaged(problems), helpOf(problems));
  const told = problems.slice(0, PROBLEMS_TOLD).map((problem) => sentence(problem, document));
  const more = countOf(problems) - PROBLEMS_TOLD;
  const rest = more > 0 ? ` There are ${String(more)} more such places.` : '';
  return refuse(`It is no whole Ohmward tree. ${told.join(' ')}${rest}`, helpOf(problems));
}

/** What broken text expects where is for whoever writes it; where it breaks off is of use to anybody. */
function damaged(problems: readonly Problem[]): string {
  const line = /\bline \d+/i.exec(problems[0]?.message ?? '')?.[0].toLowerCase();
  const where = line === undefined ? '' : ` It cannot be read on from ${line}.`;
  return `It is damaged, or was not saved to its end.${where}`;
}

function helpOf(problems: readonly Problem[]): string {
  if (problems.some(({ rule }) => rule === 'wrong-format'))
    return 'Take it in with a release of Ohmward that knows it, or have it exported again by this one.';
  return 'Have the tree exported again where it comes from. Whoever wrote the file by hand is told every place by the command line’s check.';
}

/** What is wrong at a place, with the words of the form where it has some. */
function sentence({ rule, at, message }: Problem, document: unknown): string {
  const path = pathOf(at);
  if (path.length === 0) return message;
  const where = placeSaid(document, rule === 'unknown-field' ? path.slice(0, -1) : path);
  switch (rule) {
    case 'missing':
      return `${where}: this is missing.`;
    case 'wrong-type':
      return `${where}: something of another kind stands there.`;
    case 'unknown-field':
      return `${where}: there is ${quoted(path.at(-1) ?? '')}, which no tree has.`;
    case 'wrong-format':
      return 'It says that it is of a kind that this release of Ohmward does not know.';
    default:
      return `${where}: ${message}`;
  }
}

const PARTS: Readonly<Record<string, string>> = {
  tests: 'Test',
  findings: 'Finding',
  symptoms: 'Symptom',
  bench: 'Bench states',
  interlocks: 'Interlock',
};
const WHOLES: Readonly<Record<string, string>> = {
  format: 'What kind of file it is',
  tests: 'Its tests',
  findings: 'Its findings',
  symptoms: 'Its symptoms',
  bench: 'Its bench states',
  interlocks: 'Its interlocks',
  unit: 'The units it is for',
};

function placeSaid(document: unknown, path: readonly string[]): string {
  const [root = '', id] = path;
  if (root === '') return 'The tree itself';
  if (id === undefined)
    return WHOLES[root] ?? fieldLabel(document as DraftDocument, path) ?? 'The tree itself';
  const kind = PARTS[root];
  const title = valueAt(document, [root, id, 'title']);
  const named = typeof title === 'string' && title.trim() !== '' ? title : id;
  const head =
    kind === undefined
      ? 'The tree itself'
      : root === 'interlocks'
        ? `${kind} ${String(Number(id) + 1)}`
        : `${kind} ${quoted(named)}`;
  const label = path.length > 2 || kind === undefined ? fieldLabel(document as DraftDocument, path) : null;
  return label === null ? head : `${head}: ${label}`;
}
