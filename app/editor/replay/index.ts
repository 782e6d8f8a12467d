export { default as ReplayPage } from './ReplayPage.svelte';
