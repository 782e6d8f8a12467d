export { authoredShares, type BranchShares } from './authored-shares.ts';
export { default as Drawing } from './Drawing.svelte';
export type { DrawingProps, Mark } from './drawing-props.ts';
export { numberedSteps, type NumberedStep } from './numbered-steps.ts';
