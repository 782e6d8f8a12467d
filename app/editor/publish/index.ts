export { default as PublishDialog } from './PublishDialog.svelte';
export { PublishForm, type AskToPublish, type PublishOutcome } from './publish-form.svelte.ts';
export { default as PublishFields } from './PublishFields.svelte';
