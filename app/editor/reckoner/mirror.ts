import { openChecker, type Problem, type Tree } from '../../../trees/document/index.ts';
import { applyChanges, liveTree, type Change, type DraftDocument } from '../../../trees/edit/index.ts';

/** A tree as the checker finds it. */
export interface Checked {
  readonly tree: Tree;
  /** Blank texts and the checker's problems. */
  readonly problems: readonly Problem[];
  /** Nothing keeps it from being walked; texts may be blank. */
  readonly isSound: boolean;
}

/** Checks one document after another, as edits make them of each other. */
export function openChecking(): (document: DraftDocument) => Checked {
  const check = openChecker();
  return (document) => {
    const { tree, blanks } = liveTree(document);
    const found = check(tree);
    const isSound =
      found.every(({ severity }) => severity === 'warning') &&
      blanks.every(({ rule }) => rule === 'empty-text');
    return { tree, problems: [...blanks, ...found], isSound };
  };
}

/** The document after changes that are known to fit it. Throws where they do not, as when a message was lost. */
export function changed(document: DraftDocument, changes: readonly Change[]): DraftDocument {
  const applied = applyChanges(document, changes);
  if (!applied.ok) throw new Error(`mirror-out-of-step: ${applied.message}`);
  return applied.document;
}

/** Reads a document's text. It is the window's own, so that it is known to be a JSON object. */
export function documentOf(text: string): DraftDocument {
  return JSON.parse(text) as DraftDocument;
}
