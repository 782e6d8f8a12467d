export { default as AtMerge } from './AtMerge.svelte';
export { countWords } from './groups.ts';
export { default as ComparePage } from './ComparePage.svelte';
export { default as DifferenceList } from './DifferenceList.svelte';
export { default as MergePage } from './MergePage.svelte';
export type { Compared } from './sides.ts';
