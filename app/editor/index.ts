export { TREES_KEYS } from './editor-keys.ts';
export { default as TreesArea } from './TreesArea.svelte';
