export { ProposalDesk } from './proposal-desk.svelte.ts';
export { default as ProposalPane } from './ProposalPane.svelte';
export { startProposerWorker, type StartProposer } from './proposer-thread.ts';
export type { ProposalQuestion } from './protocol.ts';
