import { countOf, own, pathOf, type Problem, type Tree } from '../../../trees/document/index.ts';
import type { DraftDocument } from '../../../trees/edit/index.ts';
import { IN_FORM } from './form-words.ts';
import { placeWords } from './place-words.ts';

type Titled = { readonly title: string } | undefined;

/** A problem as lists of them say it: in words of the form, and where it is. */
export interface SaidProblem extends Problem {
  readonly where: string;
}

/** A problem of a draft as the editor says it, with its place: all that lists problems in the window says them by this. */
export function sayProblem(document: DraftDocument, tree: Tree, problem: Problem): SaidProblem {
  return { ...inTitles(tree, problem), where: placeWords(document, tree, problem.at) };
}

/** The first of some errors with its place in one sentence, and how many there are besides. */
export function firstWords(problems: readonly SaidProblem[]): string {
  const [first] = problems;
  if (first === undefined) return '';
  const more = countOf(problems) - 1;
  return `${first.where}: ${first.message}${more > 0 ? ` (and ${String(more)} more)` : ''}`;
}

/**
 * A problem in words of the form: what the checker names by an id that the tree has is named by its title, and what it says
 * in words of the file, which whoever writes one by hand is told on the command line, as the form has it.
 */
export function inTitles(tree: Tree, problem: Problem): Problem {
  const { message, help } = own(IN_FORM, problem.rule) ?? {};
  const said = (sentence: string): string =>
    sentence.replace(
      /(step |test |finding |symptom |result |branch )?“([a-z][a-z0-9-]*)”/gi,
      (asItIs, kind: string | undefined, id: string) => {
        const title = titleAt(tree, problem.at, kind?.trim().toLowerCase(), id);
        return title === undefined ? asItIs : `${kind ?? ''}“${title}”`;
      },
    );
  return {
    ...problem,
    message: said(message?.(problem.message, tree) ?? problem.message),
    help: help === undefined ? said(problem.help) : help(problem.at),
  };
}

/** What an id stands for in a sentence about a place: of the kind that the sentence says, else what is nearest to the place. */
function titleAt(tree: Tree, at: string, kind: string | undefined, id: string): string | undefined {
  const results = (): readonly Titled[] =>
    testsAt(tree, at).map((test) => own(own(tree.tests, test)?.results ?? {}, id));
  const kinds: Readonly<Record<string, () => readonly Titled[]>> = {
    result: results,
    branch: results,
    state: () => Object.values(tree.bench).map(({ states }) => own(states, id)),
    test: () => [own(tree.tests, id)],
    finding: () => [own(tree.findings, id)],
    symptom: () => [own(tree.symptoms, id)],
    axis: () => [own(tree.bench, id)],
    step: () => Object.values(tree.symptoms).map(({ steps }) => own(tree.tests, own(steps, id)?.test ?? '')),
  };
  const said = own(kinds, kind ?? '');
  const looked = said === undefined ? Object.values(kinds) : [said];
  return looked
    .flatMap((look) => look())
    .map((part) => part?.title.trim())
    .find(isTitle);
}

/** The tests that a place is about: those it names, and the one made at its step. */
function testsAt(tree: Tree, at: string): readonly string[] {
  const path = pathOf(at);
  if (path[0] !== 'symptoms') return path;
  const step = own(own(tree.symptoms, path[1] ?? '')?.steps ?? {}, path[3] ?? '');
  return step === undefined ? [] : [step.test];
}

function isTitle(words: string | undefined): boolean {
  return words !== undefined && words !== '' && words !== '…';
}
