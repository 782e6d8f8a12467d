export { changesTo } from './changes-to.ts';
export type { Choices, Conflict, ConflictField, Side } from './conflict.ts';
export { mergeDrafts, type Merged } from './merge-drafts.ts';
