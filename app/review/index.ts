export { REVIEW_KEYS } from './review-keys.ts';
export { default as ReviewArea } from './ReviewArea.svelte';
