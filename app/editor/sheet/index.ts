export { default as TreeSheet } from './TreeSheet.svelte';
