export { default as BandLine } from './BandLine.svelte';
export type { BandProps } from './band-desk.svelte.ts';
