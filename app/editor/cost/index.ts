export { default as CostPane } from './CostPane.svelte';
