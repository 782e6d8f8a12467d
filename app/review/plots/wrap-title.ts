import { textWidth } from './text-width.ts';
import { wrapWords } from './wrap-words.ts';

/** A line of a title, and what stands in it softer, behind its words; either may be empty. */
export interface TitleLine {
  readonly words: string;
  readonly soft: string;
}

/** Sets a title in lines no wider than `width`, and what is softer behind its last one, or under it where it does not fit. */
export function wrapTitle(
  title: string,
  soft: string | undefined,
  width: number,
  em: number,
): readonly TitleLine[] {
  const lines = wrapWords(title, width, em).map((words) => ({ words, soft: '' }));
  if (soft === undefined || soft === '') return lines;
  const last = lines.at(-1);
  if (last !== undefined && textWidth(`${last.words} ${soft}`, em, 'sans') <= width)
    return [...lines.slice(0, -1), { ...last, soft }];
  return [...lines, ...wrapWords(soft, width, em, 2).map((words) => ({ words: '', soft: words }))];
}
