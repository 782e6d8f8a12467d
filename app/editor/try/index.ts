export type { Pictures } from './draft-shelf.ts';
export { default as TryPage } from './TryPage.svelte';
