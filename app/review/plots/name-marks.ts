import type { Room } from './room.ts';
import { textWidth } from './text-width.ts';

export interface MarkName {
  /** Of its middle. */
  readonly x: number;
  readonly y: number;
  readonly words: string;
  /** Where its leader goes down to the mark. */
  readonly to: number;
}

/** Names over the first row's marks, moved apart sideways so that none runs into another or out of the drawing. */
export function nameMarks(
  marks: readonly { readonly at: number; readonly words: string }[],
  y: number,
  room: Room,
): readonly MarkName[] {
  const order = [...marks].sort((a, b) => a.at - b.at);
  const widths = order.map(({ words }) => textWidth(words, room.em, 'sans'));
  const gap = room.em;
  const named: MarkName[] = [];
  let least = 0;
  for (const [index, { at, words }] of order.entries()) {
    const width = widths[index] ?? 0;
    const after = widths.slice(index + 1).reduce((sum, next) => sum + next + gap, 0);
    const x = Math.max(least + width / 2, Math.min(at, room.width - after - width / 2));
    named.push({ x, y, words, to: at });
    least = x + width / 2 + gap;
  }
  return named;
}
