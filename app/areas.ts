import { BENCH_KEYS, BenchArea } from './bench/index.ts';
import type { Areas } from './shell/index.ts';

/** The areas there are. A new one is put here; the shell knows none of them. */
export const AREAS: Areas = [{ id: 'bench', title: 'Bench', screen: BenchArea, keys: BENCH_KEYS }];
