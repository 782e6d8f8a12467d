export { applyChanges, type Applied } from './apply-changes.ts';
export { changeSchema, type Change, type Key, type Path } from './change.ts';
export { applyEntry, openDraft, replayDraft, textOf, type Draft, type EditStep } from './draft.ts';
export { draftEntrySchema, type DraftEntry } from './entry.ts';
export type { DraftDocument, Json, JsonObject } from './json.ts';
export { liveTree, type LiveTree } from './live-tree.ts';
