/**
 * Puts words at the foot of every printed leaf; gives what takes them away again. They stand in a rule for pages, since nothing
 * in the document is repeated on each of its pages by every browser.
 */
export function footLeaves(words: string): () => void {
  const rule = new CSSStyleSheet();
  rule.replaceSync(
    `@page leaves { @bottom-left { content: ${quoted(words)}; font: 9pt 'Atkinson Hyperlegible', sans-serif; } }`,
  );
  document.adoptedStyleSheets.push(rule);
  return () => {
    document.adoptedStyleSheets = document.adoptedStyleSheets.filter((one) => one !== rule);
  };
}

/** A string as CSS writes it: what would end it stands as its code. */
function quoted(words: string): string {
  return `"${words.replace(/["\\\p{Cc}]/gu, (character) => `\\${character.charCodeAt(0).toString(16)} `)}"`;
}
