export { default as ExportTree } from './ExportTree.svelte';
export { fileBase64 } from './file-base64.ts';
export { default as ImportTree } from './ImportTree.svelte';
