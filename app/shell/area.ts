import type { Component } from 'svelte';

/** A line of the help: the keys, and what they do. */
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

/** The areas of a window in the order of the frame; the first is where the app opens. */
export type Areas = readonly [Area, ...Area[]];
