import { compileChart, type Chart } from '../../trees/chart/index.ts';
import type { Tree } from '../../trees/document/index.ts';
import { recent } from './recent.ts';
import type { TreeRevisions } from './tree-revisions.ts';

export type Charts = ReturnType<typeof openCharts>;

/** Compiled charts by tree revision, the last ones used kept. */
export function openCharts(trees: Pick<TreeRevisions, 'tree'>) {
  const compiled = recent<string, { readonly tree: Tree; readonly chart: Chart }>(16);
  return {
    /** Throws where there is no such revision: jobs refer to revisions that are there. */
    of(revisionId: string): { readonly tree: Tree; readonly chart: Chart } {
      const known = compiled.get(revisionId);
      if (known !== undefined) return known;
      const tree = trees.tree(revisionId);
      if (tree === null) throw new Error(`revision-missing: ${revisionId}`);
      const made = { tree, chart: compileChart(tree) };
      compiled.set(revisionId, made);
      return made;
    },
  };
}
