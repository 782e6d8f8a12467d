import type { FactReader } from '../../records/index.ts';
import { compileFaultModel, type FaultModel, type History } from '../../../trees/belief/index.ts';
import { readTree, type Tree } from '../../../trees/document/index.ts';
import {
  expectedMinutes,
  seededDraws,
  treeBranches,
  type SymptomMinutes,
  type TreeFigures,
} from '../../../trees/review/index.ts';

/** A tree's current revision, and the counts that are sorted by it. */
export interface CurrentTree {
  readonly treeId: string;
  readonly revisionId: string;
  readonly history: History;
}

/** A tree as the review knows it. What takes long is worked out at the first call, and kept while revision and history stay. */
export interface KnownTree {
  readonly revisionId: string;
  readonly tree: Tree;
  /** For these symptoms of it. */
  figures(symptoms: readonly string[]): TreeFigures;
}

interface Kept {
  readonly history: string;
  readonly known: KnownTree;
  readonly expected: Expected;
}

/** By symptom, what the revision's author expects: the same whatever jobs are closed. */
type Expected = Map<string, SymptomMinutes['expected']>;

/** The draws of the credible intervals: always the same, so that the same records give the same figures. */
const SEED = 1;

/** Knows the current trees, by what is recorded of their revisions. */
export function openKnownTrees({
  bytesOf,
  expectedOf,
}: Pick<FactReader, 'bytesOf' | 'expectedOf'>): (current: readonly CurrentTree[]) => readonly KnownTree[] {
  let kept: ReadonlyMap<string, Kept> = new Map();
  const keep = ({ treeId, revisionId, history }: CurrentTree): Kept => {
    const former = kept.get(treeId);
    const [text, isSame] = [JSON.stringify(history), former?.known.revisionId === revisionId];
    if (former !== undefined && isSame && former.history === text) return former;
    const same = isSame ? former : undefined;
    const tree = same?.known.tree ?? treeIn(bytesOf(revisionId), revisionId);
    const expected: Expected = same?.expected ?? new Map(expectedOf(revisionId));
    return { history: text, known: knownTree(revisionId, tree, history, expected), expected };
  };
  return (current) => {
    kept = new Map(current.map((one) => [one.treeId, keep(one)]));
    return [...kept.values()].map(({ known }) => known);
  };
}

/** A revision's tree. Throws where its bytes are none, which they were checked not to be. */
export function treeIn(bytes: Uint8Array, revisionId: string): Tree {
  const { tree } = readTree(bytes);
  if (tree === null) throw new Error(`revision-unreadable: ${revisionId} was checked when it was added`);
  return tree;
}

function knownTree(revisionId: string, tree: Tree, history: History, expected: Expected): KnownTree {
  let model: FaultModel | null = null;
  let branches: TreeFigures['branches'] | null = null;
  return {
    revisionId,
    tree,
    figures(symptoms) {
      model ??= compileFaultModel(tree, history);
      branches ??= treeBranches(model, seededDraws(SEED));
      for (const symptom of symptoms) {
        if (!expected.has(symptom)) expected.set(symptom, expectedMinutes(tree, symptom));
      }
      return { tree, branches, expected };
    },
  };
}
