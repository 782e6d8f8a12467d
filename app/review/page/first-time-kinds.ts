import type { ReviewPage } from '../../../main/contract/index.ts';
import type { Group, GroupSlice } from '../../../trees/review/index.ts';
import { boardTitle, findingTitle, symptomTitle, treeBeside, treeTitle } from '../words/titles.ts';
import type { TitledGroup } from './group-columns.ts';

/** One thing that first-time fix is grouped by, in one word; what else there is to say of its groups, and the jobs of each. */
export interface FirstTimeKind {
  readonly head: string;
  readonly about: string;
  readonly groups: readonly TitledGroup[];
  readonly slice: (group: Group) => GroupSlice | null;
}

const MOST_FIRST =
  'Of jobs that can come back no more, as their window has passed; with the 95\u202f% interval, and a stroke at the rate of all. The most jobs first; of many looked at, some intervals miss the stroke by chance.';

/** What first-time fix is grouped by; by tree only where there are several. */
export function firstTimeKinds({ review, names }: ReviewPage): readonly FirstTimeKind[] {
  const { byTree, byBoard, bySymptom, byFinding } = review;
  const kind = (head: string, about: string, groups: readonly Group[], words: GroupWords): FirstTimeKind => ({
    head,
    about,
    groups: groups.map((group) => ({
      ...group,
      title: words.title(group.id, group.tree ?? ''),
      of: treeBeside(names, review, group.tree),
    })),
    slice: ({ id, tree }) => (tree === null ? null : words.slice(id, tree)),
  });
  const trees: FirstTimeKind = {
    head: 'Tree',
    about: MOST_FIRST,
    groups: byTree.map((group) => ({ ...group, title: treeTitle(names, group.id), of: '' })),
    slice: ({ id }) => ({ kind: 'tree', tree: id }),
  };
  return [
    ...(byTree.length > 1 ? [trees] : []),
    kind('Board', MOST_FIRST, byBoard, {
      title: boardTitle,
      slice: (board, tree) => ({ kind: 'board', tree, board }),
    }),
    kind('Symptom', MOST_FIRST, bySymptom, {
      title: (symptom, tree) => symptomTitle(names, tree, symptom),
      slice: (symptom, tree) => ({ kind: 'symptom', tree, symptom }),
    }),
    kind(
      'Finding',
      'Of the jobs in which it was confirmed by the remedy that mended the unit, and that can come back no more; the most jobs first. Low where other remedies were tried before it, or units came back.',
      byFinding,
      {
        title: (finding, tree) => findingTitle(names, tree, finding),
        slice: (finding, tree) => ({ kind: 'finding', tree, finding }),
      },
    ),
  ];
}

/** What groups of one kind are called, and the jobs of one. */
interface GroupWords {
  readonly title: (id: string, tree: string) => string;
  readonly slice: (id: string, tree: string) => GroupSlice;
}
