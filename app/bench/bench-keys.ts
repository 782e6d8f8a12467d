/** The keys of the Bench area, as the help shows them. */
export const BENCH_KEYS = [
  { keys: ['1', '…', '9'], does: 'Answer the question' },
  {
    keys: ['Enter'],
    does: 'Do the act: record the reading, changeover done, start the remedy, remedy done, close as fixed',
  },
  { keys: ['Esc'], does: 'Leave the reading’s field (letters act again) or a dialog' },
  { keys: ['Ctrl+Z'], does: 'Take back the last act' },
  { keys: ['Ctrl+Shift+Z'], does: 'Do it again' },
  { keys: ['s'], does: 'Skip this test' },
  { keys: ['t'], does: 'Another test, out of order' },
  { keys: ['b'], does: 'Back to the path' },
  { keys: ['f'], does: 'Another finding’s remedy' },
  { keys: ['g'], does: 'Leave the remedy undone' },
  { keys: ['x'], does: 'Pass on or close the job' },
  { keys: ['c'], does: 'Cautions for the whole job' },
  { keys: ['p'], does: 'Enlarge the picture' },
  { keys: ['F6'], does: 'The other pane' },
  { keys: ['n'], does: 'New job (in the list)' },
  { keys: ['/'], does: 'Search (in the list)' },
  { keys: ['?'], does: 'This help' },
] as const;
