export { default as Form } from './Form.svelte';
export { focusPlace } from './focus-place.ts';
