import { own, type Flows, type Tree } from '../../../../trees/document/index.ts';
import { keysAt, put, putOrDrop, type Change, type DraftDocument } from '../../../../trees/edit/index.ts';

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
 * The weights by finding that say what follows from the branches, in jobs: as many together as the first step’s branches have, each
 * to three digits. Empty where nothing follows from them.
 */
export function weightsFollowing(
  tree: Tree,
  flows: Flows,
  symptom: string,
): Readonly<Record<string, number>> {
  const path = own(tree.symptoms, symptom);
  const first = own(path?.steps ?? {}, path?.first ?? '');
  const jobs = Object.values(first?.then ?? {}).reduce((sum, { weight }) => sum + weight, 0);
  const weights = followingShares(flows, symptom).map(({ finding, share }) => [
    finding,
    Number((share * jobs).toPrecision(3)),
  ]);
  return Object.fromEntries(weights) as Record<string, number>;
}

/** The changes that give by finding what follows from the branches till then. */
export function changesToGiven(
  document: DraftDocument,
  tree: Tree,
  flows: Flows,
  symptom: string,
): readonly Change[] {
  const given = weightsFollowing(tree, flows, symptom);
  return Object.keys(given).length === 0 ? [] : put(document, ['symptoms', symptom, 'weights'], given);
}

/**
 * The changes that give one finding a weight, or none. While what is expected follows from the branches (`following`), every other finding is
 * given the weight that it has by them, so that it is none of theirs that is lost.
 */
export function changesToWeight(
  document: DraftDocument,
  symptom: string,
  finding: string,
  weight: number | undefined,
  following: Readonly<Record<string, number>>,
): readonly Change[] {
  const path = ['symptoms', symptom, 'weights'];
  const isGiven = keysAt(document, path).length > 0;
  if (isGiven || weight === undefined) return putOrDrop(document, [...path, finding], weight);
  return put(document, path, { ...following, [finding]: weight });
}
