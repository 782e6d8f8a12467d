import { scaleLinear } from 'd3-scale';
import type { CalibrationBin } from '../../../trees/review/index.ts';
import { countWords } from '../words/figures.ts';
import { shareWords, ticksAlong, ticksUp } from './axes.ts';
import { lineOf, type Box, type Room, type Tick } from './room.ts';
import { textWidth } from './text-width.ts';

/** Ems: the longest side of the square, and the tallest bar of the counts under it. */
const SIDE = 29;
const TALLEST = 2.5;

export interface LaidBin {
  readonly bin: CalibrationBin;
  readonly x: number;
  readonly y: number;
  readonly low: number;
  readonly high: number;
  readonly hit: Box;
  /** Its count as a bar under the square. */
  readonly bar: Box;
}

export interface ReliabilityLayout {
  readonly height: number;
  readonly plot: Box;
  readonly ticks: readonly Tick[];
  readonly forecasts: readonly Tick[];
  readonly points: readonly LaidBin[];
  /** Where the bars of the counts stand, and their words. */
  readonly countsAt: number;
  readonly counts: readonly (Tick & { readonly line: number })[];
  /** Lines the counts take. */
  readonly lines: 1 | 2;
}

/** Lays out a reliability diagram; tenths without a percentage are left out. */
export function layReliability(bins: readonly CalibrationBin[], room: Room): ReliabilityLayout {
  const shown = bins.filter(({ count }) => count > 0);
  const left = Math.ceil(textWidth('100 %', room.em) + room.em);
  const top = lineOf(room) + room.em;
  const side = Math.min(room.width - left - 2 * room.em, SIDE * room.em);
  const plot = { left, right: left + side, top, bottom: top + side };
  const x = scaleLinear([0, 1], [plot.left, plot.right]);
  const y = scaleLinear([0, 1], [plot.bottom, plot.top]);
  const countsAt = plot.bottom + 2 * lineOf(room) + (TALLEST + 1) * room.em;
  const most = Math.max(1, ...shown.map(({ count }) => count));
  const points = shown.map((bin): LaidBin => ({
    bin,
    x: x(bin.forecast),
    y: y(bin.observed),
    low: y(bin.low),
    high: y(bin.high),
    hit: { left: x(bin.from), right: x(bin.to), top: plot.top, bottom: plot.bottom },
    bar: {
      left: x(bin.from) + 2,
      right: x(bin.to) - 2,
      top: countsAt - Math.max(1, (TALLEST * room.em * bin.count) / most),
      bottom: countsAt,
    },
  }));
  const counts = countsOf(points, plot, room);
  const lines = counts.some(({ line }) => line > 0) ? 2 : 1;
  return {
    height: countsAt + (lines + 1) * lineOf(room) + room.em / 2,
    plot,
    ticks: ticksUp([0, 1], [plot.bottom, plot.top], shareWords, 2.4 * room.em),
    forecasts: ticksAlong([0, 1], [plot.left, plot.right], shareWords, room.em),
    points,
    countsAt,
    counts,
    lines,
  };
}

/** Under each other in turn where they do not fit beside each other. */
function countsOf(points: readonly LaidBin[], plot: Box, { em }: Room): ReliabilityLayout['counts'] {
  const twoTenths = (plot.right - plot.left) / 5;
  const most = twoTenths >= textWidth('9,999', em) + em / 4 ? 5 : 4;
  const words = points.map(({ bar, bin }) => ({
    at: (bar.left + bar.right) / 2,
    words: shortCount(bin.count, most),
  }));
  const beside = words.every((count, index) => {
    const next = words[index + 1];
    const wide = (textWidth(count.words, em) + textWidth(next?.words ?? '', em)) / 2 + em / 4;
    return next === undefined || next.at - count.at >= wide;
  });
  return words.map((count, index) => ({ ...count, line: beside ? 0 : index % 2 }));
}

/** A count in so many characters at most, as it must stand under a tenth. */
export function shortCount(count: number, most: 4 | 5): string {
  if (count < 1000 || (count < 10_000 && most === 5)) return countWords(count);
  if (count < 9950) return `${(count / 1000).toFixed(1)}k`;
  if (count < 999_500) return `${String(Math.round(count / 1000))}k`;
  return `${(count / 1_000_000).toFixed(count < 9_950_000 ? 1 : 0)}M`;
}
