import { textWidth } from './text-width.ts';

/** Sets words in lines no wider than `width`, at most `most` of them; what does not fit is cut off with an ellipsis. */
export function wrapWords(words: string, width: number, em: number, most = 4): readonly string[] {
  const lines: string[] = [];
  let line = '';
  for (const word of words.split(' ')) {
    const longer = line === '' ? word : `${line} ${word}`;
    if (line === '' || textWidth(longer, em, 'sans') <= width) line = longer;
    else {
      lines.push(line);
      line = word;
    }
  }
  lines.push(line);
  const kept = lines.slice(0, most).map((text) => cutTo(text, width, em));
  if (lines.length <= most) return kept;
  return kept.map((text, index) => (index === most - 1 ? cutTo(`${text} …`, width, em) : text));
}

function cutTo(text: string, width: number, em: number): string {
  if (textWidth(text, em, 'sans') <= width) return text;
  const fits = Math.max(1, Math.floor(width / textWidth('x', em, 'sans')) - 1);
  return `${text.slice(0, fits).replace(/[\s…]+$/u, '')}…`;
}
