import { own, type Flows, type Tree } from '../../../../trees/document/index.ts';
import { put, type Change, type DraftDocument } from '../../../../trees/edit/index.ts';

/** A finding of a symptom: its weight where one is given, and the share of the symptom’s units that it comes to, 0..1. */
export interface Weighed {
  readonly finding: string;
  readonly share: number;
}

/** What a symptom’s given weights come to, in their order; a share is of what is in the tree. */
export function givenShares(tree: Tree, symptom: string): readonly Weighed[] {
  const weights = Object.entries(own(tree.symptoms, symptom)?.weights ?? {});
  const total = weights.reduce((sum, [, weight]) => sum + weight, 0);
  return weights.map(([finding, weight]) => ({ finding, share: total > 0 ? weight / total : 0 }));
}

/** What the branches’ weights come to, the most likely first. */
export function followingShares({ arriving }: Flows, symptom: string): readonly Weighed[] {
  return [...(arriving.get(symptom) ?? [])]
    .map(([finding, share]) => ({ finding, share }))
    .toSorted((a, b) => b.share - a.share);
}

/**
 * The changes that give by finding what follows from the branches till then, in jobs: as many together as the first step’s
 * branches have, each to three digits.
 */
export function changesToGiven(
  document: DraftDocument,
  tree: Tree,
  flows: Flows,
  symptom: string,
): readonly Change[] {
  const path = own(tree.symptoms, symptom);
  const first = own(path?.steps ?? {}, path?.first ?? '');
  const jobs = Object.values(first?.then ?? {}).reduce((sum, { weight }) => sum + weight, 0);
  const given = followingShares(flows, symptom).map(({ finding, share }) => [
    finding,
    Number((share * jobs).toPrecision(3)),
  ]);
  return given.length === 0 ? [] : put(document, ['symptoms', symptom, 'weights'], Object.fromEntries(given));
}
