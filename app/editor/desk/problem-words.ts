import { own, pathOf, type Problem, type Tree } from '../../../trees/document/index.ts';

type Titled = { readonly title: string } | undefined;

/** A problem as the editor says it: what the checker names by an id that the tree has is named by its title. */
export function inTitles(tree: Tree, problem: Problem): Problem {
  const said = (sentence: string): string =>
    sentence.replace(
      /(step |test |finding |symptom |result |branch )?“([a-z][a-z0-9-]*)”/gi,
      (asItIs, kind: string | undefined, id: string) => {
        const title = titleAt(tree, problem.at, kind?.trim().toLowerCase(), id);
        return title === undefined ? asItIs : `${kind ?? ''}“${title}”`;
      },
    );
  return { ...problem, message: said(problem.message), help: own(HELPS, problem.rule) ?? said(problem.help) };
}

/** What can be done in the editor about a mention of what the tree has not; the checker's own help speaks of the file. */
const HELPS: Readonly<Record<string, string>> = {
  'unknown-axis': 'At its place take this bench state out, or add bench states and choose one of them there.',
  'unknown-state': 'At its place choose a state that its bench states have, or add one to them.',
  'unknown-test':
    'At its place choose a test that the tree has, or take this one out. A new one is added under Tests.',
  'unknown-result': 'At its place choose a result that the test has, or take this one out.',
  'unknown-finding':
    'At its place choose a finding that the tree has, or take this one out. A new one is added under Findings.',
  'unknown-symptom': 'At its place choose a symptom that the tree has, or somewhere else to go on.',
  'unknown-step': 'At its place choose a step that the path has, or add one there.',
};

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
