import { own, type Tree } from '../document/index.ts';
import type { History } from './history.ts';

/** How many remedies the author's `fixRate` weighs. */
const STRENGTH = 10;

/**
 * The chance that a finding's remedy mends the unit: the mean of the Beta posterior with the author's `fixRate` as prior
 * at strength 10, (10 fixRate + mended) / (10 + tried).
 */
export function fixRateOf(tree: Tree, history: History, finding: string): number {
  const { tried, mended } = own(history.remedies, finding) ?? { tried: 0, mended: 0 };
  return (STRENGTH * tree.defaults.fixRate + mended) / (STRENGTH + tried);
}
