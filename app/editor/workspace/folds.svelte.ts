/** Which panes beside the drawing or table are folded away, for as long as the window is open. */
class Folds {
  outline = $state(false);
  form = $state(false);
}

export const folds = new Folds();

/** The panes that can be folded, each with its words and its key. */
export const FOLDING = {
  outline: { words: 'Outline', key: 'F8' },
  form: { words: 'Form', key: 'F9' },
} as const;
