import { BENCH_KEYS, BenchArea } from './bench/index.ts';
import { TREES_KEYS, TreesArea } from './editor/index.ts';
import { REVIEW_KEYS, ReviewArea } from './review/index.ts';
import type { Areas } from './shell/index.ts';

/** The areas there are. A new one is put here; the shell knows none of them. */
export const AREAS: Areas = [
  { id: 'bench', title: 'Bench', screen: BenchArea, keys: BENCH_KEYS },
  { id: 'trees', title: 'Trees', screen: TreesArea, keys: TREES_KEYS },
  { id: 'review', title: 'Review', screen: ReviewArea, keys: REVIEW_KEYS },
];
