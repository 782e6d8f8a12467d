import type { Problem } from '../../../trees/document/index.ts';

/** Rules about where the paths lead: until these hold, the tree cannot be walked at all, whatever its texts say. */
const STRUCTURE = new Set([
  'no-symptoms',
  'no-way-in',
  'missing-steps',
  'missing-branch',
  'loop',
  'no-path',
  'otherwise-not-in-path',
  'state-unreachable',
  'interlock-circular',
  'band-loop',
  'step-unreached',
  'finding-unreached',
  'otherwise-loop',
]);

/**
 * Problems as they are listed everywhere: errors first, and of those what keeps the paths from being walked before the rest, and texts
 * that are only not written yet last; then warnings likewise. Otherwise in the order that they come in.
 */
export function orderProblems(problems: readonly Problem[]): readonly Problem[] {
  return problems.toSorted((one, other) => rank(one) - rank(other));
}

function rank({ severity, rule }: Problem): number {
  const within = rule === 'empty-text' ? 2 : STRUCTURE.has(rule) || rule.startsWith('unknown-') ? 0 : 1;
  return (severity === 'error' ? 0 : 3) + within;
}
