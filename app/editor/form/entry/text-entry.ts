import type { Entered } from './number-entry.ts';

/** The most letters that a text of the document may have. */
export const LONGEST_TEXT = 8000;

/** Reads a text as typed; a line has no line breaks. An empty text is left out where it may be. */
export function readText(
  typed: string,
  { line, optional }: { readonly line: boolean; readonly optional: boolean },
): Entered<string> {
  const text = line ? typed.replaceAll(/\s*[\r\n]+\s*/g, ' ') : typed;
  if (text.length > LONGEST_TEXT) {
    const over = text.length - LONGEST_TEXT;
    return {
      ok: false,
      wrong: `This is ${String(over)} letters too long: ${String(LONGEST_TEXT)} are taken at most.`,
    };
  }
  return { ok: true, value: text === '' && optional ? undefined : text };
}
