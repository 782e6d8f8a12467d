import { own, type Tree } from '../../trees/document/index.ts';

/** Minutes with one decimal, flush right. */
export function minutesColumn(minutes: number, width = 7): string {
  return minutes.toFixed(1).padStart(width);
}

/** A probability as per cent with one decimal, flush right. */
export function percent(probability: number): string {
  return `${(100 * probability).toFixed(1).padStart(5)} %`;
}

/** Something that can be done, by its id and in the tree's words. */
export function titled(tree: Tree, kind: 'test' | 'changeover' | 'remedy' | 'pass-on', id: string): string {
  switch (kind) {
    case 'test':
      return `test ${id}: ${own(tree.tests, id)?.title ?? ''}`;
    case 'remedy':
      return `remedy ${id}: ${findingTitle(tree, id)}`;
    case 'changeover':
      return `changeover ${id}`;
    case 'pass-on':
      return 'pass the unit on';
  }
}

/** A finding's title; the words for `unlisted`. */
export function findingTitle(tree: Tree, id: string): string {
  return own(tree.findings, id)?.title ?? 'Something not in this tree';
}

/** By how much a plan may fall short of the best there is, in words. */
export function closeness(gap: number): string {
  if (gap === 0) return 'the best there is';
  const most = gap < 0.05 ? 'less than 0.1 minutes' : `at most ${gap.toFixed(1)} minutes`;
  return `${most} more than the best there is`;
}
