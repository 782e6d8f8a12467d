export { default as App } from './App.svelte';
export type { Area, Areas, KeyLine } from './area.ts';
export { INSTRUMENT_WORDS } from './instrument-words.ts';
export { remember, remembered } from './remembered.ts';
export { hashOf, place } from './route.svelte.ts';
export { Session, useSession } from './session.svelte.ts';
export { singleKeys } from './single-keys.svelte.ts';
export type { Asked, Trouble } from './trouble.ts';
export { voice } from './voice.svelte.ts';
