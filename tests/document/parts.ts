import { checkTree, type Problem } from '../../trees/document/index.ts';
import { smallDocument, treeOf, type TreeDocument } from '../support/trees.ts';

/** A rule, the place it is reported at, and a change to the small tree that brings up this problem and no other. */
export type Case = readonly [rule: string, at: string, change: (document: TreeDocument) => void];

/** What the checker says of the small tree after a change to its document. */
export function problemsAfter(change: (document: TreeDocument) => void): readonly Problem[] {
  const document = smallDocument();
  change(document);
  return checkTree(treeOf(document));
}

/** Problems by severity, rule and place, for comparing with what a {@link Case} foretells. */
export function outline(problems: readonly Problem[]): readonly (readonly [string, string, string])[] {
  return problems.map(({ severity, rule, at }) => [severity, rule, at]);
}

/** The value, which the test's own document is known to have. */
export function mustHave<Value>(value: Value | null | undefined): Value {
  if (value === null || value === undefined)
    throw new Error('The document of this test lacks what it changes.');
  return value;
}

export function axisOf(document: TreeDocument, id: string): NonNullable<TreeDocument['bench']>[string] {
  return mustHave(document.bench?.[id]);
}

export function testOf(document: TreeDocument, id: string): TreeDocument['tests'][string] {
  return mustHave(document.tests[id]);
}

export function findingOf(document: TreeDocument, id: string): TreeDocument['findings'][string] {
  return mustHave(document.findings[id]);
}

export function symptomOf(document: TreeDocument, id: string): TreeDocument['symptoms'][string] {
  return mustHave(document.symptoms[id]);
}

export function stepOf(
  document: TreeDocument,
  symptom: string,
  step: string,
): NonNullable<TreeDocument['symptoms'][string]['steps']>[string] {
  return mustHave(symptomOf(document, symptom).steps?.[step]);
}

/** Adds a measured test `heat` whose bands are ratios to another test's reading, and uses it as a proof. */
export function addRatio(document: TreeDocument, of: string): void {
  document.tests['heat'] = {
    ...testOf(document, 'tone'),
    needs: {},
    reading: { unit: 'V' },
    results: { cold: { title: 'Cold', band: { to: 1, of } }, hot: { title: 'Hot', band: { from: 1, of } } },
  };
  mustHave(findingOf(document, 'panel-dead').prove).push('heat');
}
