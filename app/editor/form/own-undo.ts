/**
 * Keeps the keys of undoing in a field that is no part of the document, where they undo what is typed: else the workspace would
 * undo the document’s last edit with them.
 */
export function keepUndo(event: KeyboardEvent): void {
  if ((event.ctrlKey || event.metaKey) && /^[zy]$/i.test(event.key)) event.stopPropagation();
}
