import { clockWords, dayWords } from '../../parts/index.ts';
import type { Opened } from '../desk/opened-draft.ts';
import { shortChecksum } from '../list/revision-words.ts';

const MOST_OF_TITLE = 70;

/** What every leaf says of itself at its foot: of which tree it is, and of which revision or draft. */
export function leafFoot(title: string, opened: Opened): string {
  const short = title.length > MOST_OF_TITLE ? `${title.slice(0, MOST_OF_TITLE - 1)}…` : title;
  if (opened.kind === 'draft') {
    const { lastAt } = opened.full.draft;
    return `${short} · draft of ${dayWords(lastAt)}, ${clockWords(lastAt)}, not published`;
  }
  const { addedAt, checksum } = opened.revision;
  return `${short} · revision of ${dayWords(addedAt)}, SHA-256 ${shortChecksum(checksum)}…`;
}

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
