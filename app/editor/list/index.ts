export { default as Revisions } from './Revisions.svelte';
export { default as TreeList } from './TreeList.svelte';
