import { seededDraws } from '../../../trees/review/index.ts';

/** Numbers drawn from a stated seed: the same seed gives the same ones. */
export interface Random {
  /** In [0, 1). */
  readonly next: () => number;
  /** Whether something of this probability happens. */
  readonly happens: (probability: number) => boolean;
  /** One of the options, in proportion to their weights; the last where all weights are zero. */
  readonly choose: <T>(options: readonly T[], weights?: ArrayLike<number>) => T;
}

/** Enough for an invented shop and for nothing else. */
export function seededRandom(seed: number): Random {
  const next = seededDraws(seed);
  return {
    next,
    happens: (probability) => next() < probability,
    choose(options, weights) {
      const [first] = options;
      if (first === undefined) throw new Error('nothing-to-choose: there are no options');
      let total = 0;
      for (let at = 0; at < options.length; at += 1) total += weights === undefined ? 1 : (weights[at] ?? 0);
      let left = next() * total;
      for (let at = 0; at < options.length; at += 1) {
        left -= weights === undefined ? 1 : (weights[at] ?? 0);
        if (left < 0) return options[at] ?? first;
      }
      return options.at(-1) ?? first;
    },
  };
}
