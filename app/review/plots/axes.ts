import { scaleLinear } from 'd3-scale';
import type { Tick } from './room.ts';
import { textWidth } from './text-width.ts';

/** Where an axis of shares begins: at none, or, where all lies in the upper half, cut a little below the lowest. */
export function shareStart(lowest: number): number {
  if (!(lowest >= 0.5)) return 0;
  return Math.min(0.9, Math.floor((lowest - 0.02) * 10) / 10);
}

/** The end of an axis from 0 that has room for `largest`: itself a mark of the axis. */
export function axisEnd(largest: number, marks = 5): number {
  const [, end = 1] = scaleLinear()
    .domain([0, largest > 0 ? largest : 1])
    .nice(marks)
    .domain();
  return end;
}

/** Share as the words of an axis. */
export function shareWords(share: number): string {
  return `${String(Math.round(share * 1000) / 10)}\u202f%`;
}

/** Marks up an axis, as close as `apart` pixels, from the value and pixel of its start to those of its end. */
export function ticksUp(
  domain: readonly [number, number],
  pixels: readonly [number, number],
  words: (value: number) => string,
  apart: number,
): readonly Tick[] {
  const scale = scaleLinear(domain, pixels);
  const count = Math.max(1, Math.floor(Math.abs(pixels[0] - pixels[1]) / apart));
  return scale.ticks(Math.min(5, count)).map((value) => ({ at: scale(value), words: words(value) }));
}

/** Marks along an axis, evenly apart; words only where they fit beside each other. */
export function ticksAlong(
  domain: readonly [number, number],
  pixels: readonly [number, number],
  words: (value: number) => string,
  em: number,
  whole = false,
): readonly Tick[] {
  const scale = scaleLinear(domain, pixels);
  const room = pixels[1] - pixels[0];
  const widest = textWidth(words(domain[1]), em) + 2 * em;
  const values = scale
    .ticks(Math.max(1, Math.min(6, Math.floor(room / widest))))
    .filter((value) => !whole || Number.isInteger(value));
  return wordsWhereFit(
    values.map((value) => ({ at: scale(value), words: words(value) })),
    em,
  );
}

/** Takes the words from ticks where they would run into others: every second one keeps them, or every third, and so on. */
export function wordsWhereFit(
  ticks: readonly { readonly at: number; readonly words: string }[],
  em: number,
): readonly Tick[] {
  const widest = Math.max(0, ...ticks.map(({ words }) => textWidth(words, em))) + em / 2;
  const apart = Math.abs((ticks[1]?.at ?? 0) - (ticks[0]?.at ?? 0));
  const stride = ticks.length < 2 ? 1 : Math.max(1, Math.ceil(widest / apart));
  return ticks.map(({ at, words }, index) => ({ at, words: index % stride === 0 ? words : null }));
}
