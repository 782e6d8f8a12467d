/** Words of a text, and whether they must not be broken. */
export interface Stretch {
  readonly words: string;
  readonly isWhole: boolean;
}

/** A word in which a letter or figure stands alone behind a hyphen, or a number does: `USB-C`, `KW-1`. Longer ones may break. */
const NAME = /[\p{L}\p{N}]{1,12}(?:-(?:\p{L}(?![\p{L}\p{N}])|\p{N}{1,8}(?![\p{L}\p{N}])))+/gu;

/** A text in stretches, in their order: a name whose parts are joined by a hyphen is a stretch of its own. */
export function wholeWords(text: string): readonly Stretch[] {
  const stretches: Stretch[] = [];
  let end = 0;
  for (const { 0: words, index } of text.matchAll(NAME)) {
    if (index > end) stretches.push({ words: text.slice(end, index), isWhole: false });
    stretches.push({ words, isWhole: true });
    end = index + words.length;
  }
  if (end < text.length) stretches.push({ words: text.slice(end), isWhole: false });
  return stretches;
}
