/**
 * Line glyphs of our own on a 24 x 24 grid, stroked in the text's colour. Each stands beside the word it draws, never
 * for it. Names are of what is drawn.
 */
export const GLYPHS = {
  'dc-volts': 'M4 9h16 M4 15h3.5 M10.2 15h3.5 M16.5 15h3.5',
  ohms: 'M2 12h4l1.5-5 3 10 3-10 3 10L18 12h4',
  continuity:
    'M4 16a2 2 0 1 0 .01 0z M20 16a2 2 0 1 0 .01 0z M6 17h12 M8 10a5.5 5.5 0 0 1 8 0 M5.5 7.5a9 9 0 0 1 13 0',
  diode: 'M2 12h6 M16 12h6 M8 6v12l8-6z M16 6v12',
  'dc-amps': 'M2 12h14 M12 7l5 5-5 5 M20 5v14',
  scope: 'M3 4h18v16H3z M6 14h3V9h4v5h3V9h2',
  eye: 'M2 12c3-5 6.5-7 10-7s7 2 10 7c-3 5-6.5 7-10 7s-7-2-10-7z M12 9a3 3 0 1 0 .01 0z',
  ear: 'M7 9a5 5 0 0 1 10 0c0 4-4 4.500-4 8a3 3 0 0 1-5.500 1.500 M10 10a2 2 0 0 1 4 0',
  hand: 'M8 12V5.500a1.500 1.500 0 0 1 3 0V11V4a1.500 1.500 0 0 1 3 0v7V6a1.500 1.500 0 0 1 3 0v9c0 3.500-2 6-5.500 6-3 0-4.500-1.500-6-4.500L4 13.500c-.8-1.600 1-2.600 2-1.500l2 2.500',
  caution: 'M12 3.500 22 20.500H2z M12 10v5 M12 17.500v.5',
  changeover: 'M4 8h13 M13 4l4 4-4 4 M20 16H7 M11 12l-4 4 4 4',
  finding: 'M10 4a6 6 0 1 0 .01 0z M14.500 14.500 20 20',
  remedy: 'M4 20l9-9 M13 11l-1-4 4-4v4l4 0-4 4z',
  tick: 'M4 13l5 5L20 6',
  cross: 'M5 5l14 14 M19 5 5 19',
  open: 'M12 4a8 8 0 1 0 .01 0z',
  'broken-ring':
    'M14.500 4.400a8 8 0 0 1 5.100 5.100 M19.600 14.500a8 8 0 0 1-5.100 5.100 M9.500 19.600a8 8 0 0 1-5.100-5.100 M4.400 9.500a8 8 0 0 1 5.100-5.100',
  half: 'M12 4a8 8 0 1 0 .01 0z M12 4v16 M9 5v14 M6 7.500v9',
  closed: 'M4 4h16v16H4z',
  split: 'M12 4v16 M4 6h5 M4 12h5 M4 18h5 M15 6h5 M15 12h5 M15 18h5',
  barred: 'M12 3a9 9 0 1 0 .01 0z M5.700 5.700l12.600 12.600',
  contradiction: 'M4 9h16 M4 15h16 M8 20 16 4',
  back: 'M9 5 4 10l5 5 M4 10h10a5 5 0 0 1 0 10h-3',
  forward: 'M15 5l5 5-5 5 M20 10H10a5 5 0 0 0 0 10h3',
  person: 'M12 4a4 4 0 1 0 .01 0z M4 21c1-5 4-7 8-7s7 2 8 7',
  up: 'M6 14l6-6 6 6',
  down: 'M6 10l6 6 6-6',
  again: 'M20 12a8 8 0 1 1-2.500-5.800 M18 2v5h-5',
  sheet: 'M6 3h9l4 4v14H6z M9 10h7 M9 14h7 M9 18h4',
} as const;

export type GlyphName = keyof typeof GLYPHS;
