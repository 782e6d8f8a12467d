import { contributionOf, type Contribution } from '../../trees/belief/index.ts';
import type { JobState } from '../../trees/chart/index.ts';
import type { Tree } from '../../trees/document/index.ts';
import { countRows, type Sign } from './count-rows.ts';
import type { Room } from './database.ts';
import type { TreeRevisions } from './tree-revisions.ts';

export type Counts = ReturnType<typeof openCounts>;

/**
 * What closed jobs have shown, by tree: n(s,f), n(t,f,r) and the remedies, sorted by the tree's current revision. Ids that
 * the current revision no longer has are not counted; their events stay. The callers hold the transaction.
 */
export function openCounts({ db }: Pick<Room, 'db'>, trees: Pick<TreeRevisions, 'current'>) {
  const rows = countRows(db);
  const insertState = db.prepare<[number, string, string]>(
    'INSERT INTO closed_state (place, tree_id, state) VALUES (?, ?, ?)',
  );
  const stateAt = db.prepare<[number], string>('SELECT state FROM closed_state WHERE place = ?').pluck();
  const deleteState = db.prepare<[number]>('DELETE FROM closed_state WHERE place = ?');
  const statesAfter = db.prepare<[string, number], { readonly place: number; readonly state: string }>(
    'SELECT place, state FROM closed_state WHERE tree_id = ? AND place > ? ORDER BY place LIMIT 500',
  );

  const apply = (tree: Tree, state: JobState, sign: Sign): void => {
    const contribution = contributionOf(tree, state);
    if (contribution !== null) rows.add(tree, contribution, sign);
  };

  return {
    of: rows.of,
    about: rows.about,
    /** Counts a job that was closed in this state; one that adds nothing to history leaves no row. */
    count(place: number, treeId: string, state: JobState): void {
      const tree = currentTree(trees, treeId);
      if (contributionOf(tree, state) === null) return;
      insertState.run(place, treeId, JSON.stringify(shown(state)));
      apply(tree, state, 1);
    },
    /** Counts many jobs, each count written once. */
    countMany(
      jobs: readonly { readonly place: number; readonly treeId: string; readonly state: JobState }[],
    ): void {
      for (const [treeId, ofTree] of Map.groupBy(jobs, (job) => job.treeId)) {
        const tree = currentTree(trees, treeId);
        const contributions = ofTree.flatMap(({ place, state }) => {
          const contribution = contributionOf(tree, state);
          if (contribution !== null) insertState.run(place, treeId, JSON.stringify(shown(state)));
          return contribution ?? [];
        });
        rows.addMany(tree, contributions);
      }
    },
    /** Takes a job's counts back, its closing having been taken back. */
    uncount(place: number, treeId: string): void {
      const state = stateAt.get(place);
      if (state === undefined) return;
      apply(currentTree(trees, treeId), JSON.parse(state) as JobState, -1);
      deleteState.run(place);
    },
    /**
     * What some of the jobs closed on a tree would add to the history of `as`, were that its current revision: of those that come after
     * a place, and the place to go on from; null where there are no more.
     */
    contributionsAs(
      treeId: string,
      as: Tree,
      after: number,
    ): { readonly contributions: readonly Contribution[]; readonly goOn: number | null } {
      const page = statesAfter.all(treeId, after);
      const contributions = page.flatMap(
        ({ state }) => contributionOf(as, JSON.parse(state) as JobState) ?? [],
      );
      return { contributions, goOn: page.at(-1)?.place ?? null };
    },
    /** Sorts the tree's whole history again, its bands, results or ids having changed. */
    sortAgain(treeId: string): void {
      rows.clear(treeId);
      const tree = currentTree(trees, treeId);
      let page = statesAfter.all(treeId, -1);
      while (page.length > 0) {
        for (const { state } of page) apply(tree, JSON.parse(state) as JobState, 1);
        page = statesAfter.all(treeId, page.at(-1)?.place ?? Infinity);
      }
    },
  };
}

function currentTree(trees: Pick<TreeRevisions, 'current'>, treeId: string): Tree {
  const tree = trees.current(treeId);
  if (tree === null) throw new Error(`tree-missing: "${treeId}" has jobs and no revision`);
  return tree;
}

/** What history is made of: the remedies whose proof was made, and how it ended. */
function shown({ symptom, remedies, era, outcome }: JobState): JobState {
  const proved = remedies.filter(({ state }) => state === 'mended' || state === 'not-mended');
  const kept = proved.map((remedy) => (remedy.state === 'mended' ? remedy : { ...remedy, evidence: [] }));
  return {
    symptom,
    era,
    answers: [],
    skips: [],
    remedies: kept.map((remedy) => ({ ...remedy, proofs: [] })),
    ...(outcome && { outcome }),
  };
}
