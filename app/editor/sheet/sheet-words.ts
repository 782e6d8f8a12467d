import { destination, own, type Tree } from '../../../trees/document/index.ts';
import type { NumberedPath } from './numbered-paths.ts';

/** A bare step is one of the path that the job came in by, so it is told on every path that has it. */
export function otherwiseWords(
  tree: Tree,
  paths: readonly NumberedPath[],
  otherwise: string | undefined,
): string {
  if (otherwise === undefined) return '';
  const place = destination(otherwise, '');
  if (place.kind !== 'step' || place.symptom !== '') return goWords(tree, paths, otherwise, '');
  const places = paths.flatMap(({ letter, steps }) => {
    const number = steps.get(place.step);
    return number === undefined ? [] : [`${letter}${String(number)}`];
  });
  return places.length === 0 ? NOWHERE : `go to ${places.join(' or ')}, on the path you came by`;
}

const NOWHERE = 'leads nowhere yet';

/** Where a `go` leads, as the sheet calls it: `go to 4`, `go to B2 (No sound)`, `finding 2, Fuse open`. */
export function goWords(tree: Tree, paths: readonly NumberedPath[], go: string, symptom: string): string {
  const place = destination(go, symptom);
  if (place.kind === 'finding') {
    const finding = own(tree.findings, place.finding);
    return finding === undefined
      ? NOWHERE
      : `finding ${findingNumber(tree, place.finding)}, ${finding.title}`;
  }
  const path = paths.find((one) => one.symptom === place.symptom);
  const title = own(tree.symptoms, place.symptom)?.title;
  if (path === undefined || title === undefined) return NOWHERE;
  if (place.kind === 'symptom' && path.steps.size === 0) return `path ${path.letter}, ${title}`;
  const number = place.kind === 'symptom' ? 1 : path.steps.get(place.step);
  if (number === undefined) return NOWHERE;
  return place.symptom === symptom
    ? `go to ${String(number)}`
    : `go to ${path.letter}${String(number)} (${title})`;
}

/** A bench state in words, by axis. */
export function needsWords(tree: Tree, needs: Readonly<Record<string, string>>): string {
  return Object.entries(needs)
    .map(([axis, state]) => {
      const found = own(tree.bench, axis);
      return `${found?.title ?? axis}: ${own(found?.states ?? {}, state)?.title ?? state}`;
    })
    .join('; ');
}

/** Results of a test by title. */
export function resultWords(tree: Tree, test: string, results: readonly string[]): string {
  const titles = results.map((result) => own(own(tree.tests, test)?.results ?? {}, result)?.title ?? result);
  return titles.join(' or ');
}

/** What a sound unit gives. */
export function firstResult(tree: Tree, test: string): string {
  return Object.values(own(tree.tests, test)?.results ?? {})[0]?.title ?? '';
}

/** A test by number and title. */
export function numbered(tree: Tree, test: string): string {
  return listed([testNumber(tree, test), own(tree.tests, test)?.title ?? test], ' ');
}

/** A test’s number on the sheet, `T3`; empty where there is no such test. */
export function testNumber(tree: Tree, test: string): string {
  return numberIn(tree.tests, test, 'T');
}

/** A finding’s number on the sheet, `2`: with an F before it, it would read as a fuse’s. */
export function findingNumber(tree: Tree, finding: string): string {
  return numberIn(tree.findings, finding, '');
}

function numberIn(entries: Readonly<Record<string, unknown>>, id: string, letter: string): string {
  const at = Object.keys(entries).indexOf(id);
  return at < 0 ? '' : `${letter}${String(at + 1)}`;
}

/** Words side by side, empty ones left out. */
export function listed(words: readonly string[], between = ' · '): string {
  return words.filter((word) => word !== '').join(between);
}
