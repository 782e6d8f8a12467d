import { binomialTails } from './binomial-tails.ts';

/** What 99.8 % limits leave on each side. */
const RARE = 0.001;

/**
 * On which side of a funnel plot's 99.8 % limits `count` of `of` lies, by the exact binomial tail about `target`: outside where
 * chance does as much in less than 1 of 1000. The limits as lines ({@link funnelLimits}) are interpolated between counts, and so run
 * within a count of where this turns: above all they never reach 1, where one of one lies.
 */
export function funnelSide(count: number, of: number, target: number): 'below' | 'within' | 'above' {
  const { atMost, atLeast } = binomialTails(count, of, target);
  if (atLeast < RARE) return 'above';
  return atMost < RARE ? 'below' : 'within';
}
