/** The keys of the Trees area, as the help shows them. */
export const TREES_KEYS = [
  { keys: ['N'], does: 'New tree (in the list of trees)' },
  { keys: ['Ctrl+Z'], does: 'Undo the last edit' },
  { keys: ['Ctrl+Shift+Z'], does: 'Do it again' },
  { keys: ['Ctrl+F'], does: 'Find a part of the tree' },
  { keys: ['F6'], does: 'The next pane: outline, drawing or table, form, checks' },
  { keys: ['F8', 'F9'], does: 'Fold the outline, the form, away or show it again' },
  { keys: ['Enter'], does: 'Into the form; on a branch: where it leads; on a cell: what it holds' },
  { keys: ['+'], does: 'Add what belongs where the keys are' },
  { keys: ['Delete'], does: 'Take out what is selected; what goes with it is shown first' },
  { keys: ['Space'], does: 'Select one more, or one less' },
  { keys: ['Ctrl+C', 'Ctrl+X', 'Ctrl+V'], does: 'Copy, cut, paste: within a tree and between trees' },
  { keys: ['Ctrl+D'], does: 'Duplicate' },
  { keys: ['Alt+↑', 'Alt+↓'], does: 'Move a part among its like; a step on its path' },
  { keys: ['→', '←'], does: 'Unfold or follow; fold or go back (in the outline)' },
] as const;
