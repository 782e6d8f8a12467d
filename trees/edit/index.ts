export { applyChanges, type Applied } from './apply-changes.ts';
export { changeSchema, type Change, type Key, type Path } from './change.ts';
export { applyEntry, openDraft, replayDraft, textOf, type Draft, type EditStep } from './draft.ts';
export { draftEntrySchema, type DraftEntry } from './entry.ts';
export { jsonValues } from './json-values.ts';
export type { DraftDocument, Json, JsonObject } from './json.ts';
export { liveTree, type LiveTree } from './live-tree.ts';
export { makeAgain, type MadeAgain } from './make-again.ts';
export { addFinding, addResult, addSymptom, addTest, duplicate } from './acts/add.ts';
export { addAxis, addChange, addInterlock, addState } from './acts/bench.ts';
export { exchangeWithAfter, exchangeWithBefore, type Exchange } from './acts/exchange.ts';
export { keysAt } from './acts/keys-at.ts';
export type { Made } from './acts/made.ts';
export { newId } from './acts/new-id.ts';
export { append, at, drop, enter, put, putOrDrop, sift } from './acts/put.ts';
export { removalOf, type Removal } from './acts/removal.ts';
export { addStep, goTo, link, setTest, unlink, type BranchPlace } from './acts/steps.ts';
export {
  changesTo,
  mergeDrafts,
  type Choices,
  type Conflict,
  type ConflictField,
  type Merged,
  type Side,
} from './merge/index.ts';
export { clipSchema, copyOf, pasteOf, type Clip, type Pasted } from './clip/index.ts';
export {
  fieldLabel,
  labelOf,
  tellConflict,
  tellDifferences,
  type Told,
  type ToldConflict,
  type Versions,
} from './telling/index.ts';
export { expectCell, setCell, type CellValue, type ExpectCell } from './expect-table.ts';
export { mendOf, type Mend } from './mends/index.ts';
export { pathChanges } from './path-changes.ts';
