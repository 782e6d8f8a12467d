import type { Component } from 'svelte';
import { BenchArea, BENCH_KEYS } from '../bench/index.ts';

export interface KeyLine {
  readonly keys: readonly string[];
  readonly does: string;
}

/** One use of the app: its place in the address, its name in the frame, its screens, and the keys they take. */
export interface Area {
  readonly id: string;
  readonly title: string;
  readonly screen: Component<{ rest: readonly string[] }>;
  readonly keys: readonly KeyLine[];
}

/** The areas there are, in the order of the frame; the first is where the app opens. */
export const AREAS: readonly [Area, ...Area[]] = [
  { id: 'bench', title: 'Bench', screen: BenchArea, keys: BENCH_KEYS },
];
