import fc from 'fast-check';
import { expect, test } from 'vitest';
import { wholeWords } from '../../app/parts/whole-words.ts';

/** What must stay on one line of a text. */
function wholeIn(text: string): readonly string[] {
  return wholeWords(text)
    .filter(({ isWhole }) => isWhole)
    .map(({ words }) => words);
}

test('a name keeps its single letter or its number behind the hyphen; other words break at theirs', () => {
  expect(wholeIn('USB-C charging board')).toEqual(['USB-C']);
  expect(wholeIn('Kittiwake KW-1, refitted panel; KW1-5054223')).toEqual(['KW-1', 'KW1-5054223']);
  expect(wholeIn('Dead-short indicator, DC-DC converter, first-time fix, A - B')).toEqual([]);
});

test('the text is the same, letter by letter, whatever of it is kept on one line', () => {
  const text = fc.string({ unit: fc.constantFrom('a', 'B', '-', ' ', '1', 'Ω', ',', '🔧') });
  fc.assert(
    fc.property(text, (one) => {
      expect(
        wholeWords(one)
          .map(({ words }) => words)
          .join(''),
      ).toBe(one);
      for (const words of wholeIn(one)) expect(words).not.toMatch(/\s/);
    }),
  );
});
