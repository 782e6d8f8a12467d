export { default as ChecksPane } from './ChecksPane.svelte';
