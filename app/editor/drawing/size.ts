import type { DrawnBranch, DrawnNode } from './graph.ts';

/** Sizes of the drawing's boxes at natural size, in pixels. They are known before anything is drawn, so that it can be laid out first. */
const COLUMN = 108;
const STEP_HEAD = 88;
export const RESULT_HEIGHT = 56;
const SMALL_WIDTH = 224;
const SMALL_HEIGHT = 80;

export interface Size {
  readonly width: number;
  readonly height: number;
}

/** A step has a column for every result along its foot, as its branches leave there. */
export function sizeOf(node: DrawnNode): Size {
  if (node.kind !== 'step') return { width: SMALL_WIDTH, height: SMALL_HEIGHT };
  const columns = Math.max(2, node.results.length);
  return { width: columns * COLUMN + (columns === 2 ? COLUMN / 2 : 0), height: STEP_HEAD + RESULT_HEIGHT };
}

/** How far from a box's left edge a branch leaves its foot. */
export function leavesAt(node: DrawnNode, branch: Pick<DrawnBranch, 'place'>): number {
  const { width } = sizeOf(node);
  return node.kind === 'step' ? ((branch.place + 0.5) * width) / Math.max(1, node.results.length) : width / 2;
}
