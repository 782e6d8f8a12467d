import { own, pathOf, type Tree } from '../../../trees/document/index.ts';
import { fieldLabel, type DraftDocument } from '../../../trees/edit/index.ts';
import { numbersOf, titled } from './part-words.ts';
import { partOf, type Part } from './places.ts';

/** A place in the document as lists of problems name it: its part, and the form’s label of the field: `Test “5 V rail”: Title`. */
export function placeWords(document: DraftDocument, tree: Tree, pointer: string): string {
  const path = pathOf(pointer);
  const words = partHead(tree, partOf(pointer));
  const label = fieldLabel(document, path);
  return label === null || isPart(path) ? words : `${words}: ${label}`;
}

/** Is the place a part itself, and no field of one? */
function isPart(path: readonly string[]): boolean {
  return path.length === 0 || path.length === 2 || (path.length === 4 && path[2] === 'steps');
}

function partHead(tree: Tree, part: Part): string {
  switch (part.kind) {
    case 'tree':
      return 'The tree itself';
    case 'test':
      return headed('Test', tree.tests, part.test);
    case 'finding':
      return headed('Finding', tree.findings, part.finding);
    case 'symptom':
      return headed('Symptom', tree.symptoms, part.symptom);
    case 'axis':
      return headed('Bench states', tree.bench, part.axis);
    case 'interlock':
      return `Interlock ${String(part.index + 1)}`;
    case 'step':
      return stepHead(tree, part.symptom, part.step);
  }
}

/** A part by its title; one that has none yet by its number among its kind, as several can be untitled. */
function headed(kind: string, parts: Readonly<Record<string, { title: string }>>, id: string): string {
  const title = own(parts, id)?.title;
  if (isTitled(title)) return `${kind} “${titled(title)}”`;
  const place = Object.keys(parts).indexOf(id);
  return place < 0 ? `${kind} “${id}”` : `${kind} ${String(place + 1)}, untitled`;
}

/** A step is numbered within its path, which is named where there are several. */
function stepHead(tree: Tree, symptom: string, step: string): string {
  const number = numbersOf(tree, symptom).get(step);
  if (number === undefined) return `Step “${step}”`;
  const test = own(tree.tests, own(tree.symptoms, symptom)?.steps[step]?.test ?? '');
  const words = `Step ${String(number)}, ${quotedTitle(test?.title)}`;
  if (Object.keys(tree.symptoms).length < 2) return words;
  return `${words} of ${quotedTitle(own(tree.symptoms, symptom)?.title)}`;
}

/** A title in quotes, or the plain word for one that is not written yet. */
export function quotedTitle(title: string | undefined): string {
  return isTitled(title) ? `“${titled(title)}”` : titled(title);
}

function isTitled(title: string | undefined): boolean {
  return titled(title) !== titled(undefined);
}
