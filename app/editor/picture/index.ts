export { default as PictureForm } from './PictureForm.svelte';
