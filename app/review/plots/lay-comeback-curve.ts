import { scaleLinear } from 'd3-scale';
import { area, curveStepAfter, line } from 'd3-shape';
import type { CurvePoint } from '../../../trees/review/index.ts';
import { countWords } from '../words/figures.ts';
import { shareStart, shareWords, ticksAlong, ticksUp } from './axes.ts';
import { placeLabels } from './place-labels.ts';
import { lineOf, type Box, type Room, type Tick } from './room.ts';
import { textWidth } from './text-width.ts';
import { thinLabels } from './thin-labels.ts';

/** Ems. */
const HEIGHT = 14;

export interface LaidDay {
  readonly point: CurvePoint;
  /** Units back up to this day, of those in the curve. */
  readonly backSoFar: number;
  readonly x: number;
  readonly y: number;
  readonly hit: Box;
}

export interface CurveLayout {
  readonly height: number;
  readonly plot: Box;
  readonly start: number;
  readonly ticks: readonly Tick[];
  readonly days: readonly Tick[];
  readonly curve: string;
  readonly band: string;
  /** Days with a comeback, and the window's: what can be pointed at. */
  readonly points: readonly LaidDay[];
  readonly window: {
    readonly x: number;
    /** The curve there; null where it does not reach so far. */
    readonly y: number | null;
    readonly label: { readonly left: number; readonly top: number; readonly lines: readonly string[] } | null;
  };
  /** Units at risk, under the days of the curve's own points. */
  readonly atRisk: readonly Tick[];
}

/** Lays out the comeback-free curve. `points` in the order of their days, the first of day 0; `window` in days, over 0. */
export function layComebackCurve(
  points: readonly CurvePoint[],
  window: number,
  atWindow: CurvePoint | null,
  room: Room,
): CurveLayout {
  const left = Math.ceil(textWidth('100 %', room.em) + room.em);
  const top = lineOf(room) + room.em;
  const plot = { left, right: room.width - 1.5 * room.em, top, bottom: top + HEIGHT * room.em };
  const last = Math.max(window, points.at(-1)?.days ?? 0);
  const start = shareStart(Math.min(...points.map(({ low }) => low), atWindow?.low ?? 1));
  const x = scaleLinear([0, last], [plot.left, plot.right]);
  const y = scaleLinear([start, 1], [plot.bottom, plot.top]);
  const days = ticksAlong([0, last], [plot.left, plot.right], String, room.em, true);
  return {
    height: plot.bottom + 4 * lineOf(room) + room.em,
    plot,
    start,
    ticks: ticksUp([start, 1], [plot.bottom, plot.top], shareWords, 2.4 * room.em),
    days,
    ...pathsOf(points, x, y),
    points: pointsOf(points, atWindow, x, y, plot),
    window: windowOf(window, atWindow, x, y, plot, room),
    atRisk: atRiskOf(points, window, days, x, room),
  };
}

type Scale = (value: number) => number;

function pathsOf(
  points: readonly CurvePoint[],
  x: Scale,
  y: Scale,
): { readonly curve: string; readonly band: string } {
  const curve = line<CurvePoint>(
    ({ days }) => x(days),
    ({ survival }) => y(survival),
  ).curve(curveStepAfter);
  const band = area<CurvePoint>(
    ({ days }) => x(days),
    ({ low }) => y(low),
    ({ high }) => y(high),
  ).curve(curveStepAfter);
  return { curve: curve([...points]) ?? '', band: band([...points]) ?? '' };
}

/** Each day's share of the plot reaches half way to its neighbours. */
function pointsOf(
  points: readonly CurvePoint[],
  atWindow: CurvePoint | null,
  x: Scale,
  y: Scale,
  plot: Box,
): readonly LaidDay[] {
  let backSoFar = 0;
  const told = points.map((point) => ({ point, backSoFar: (backSoFar += point.back) }));
  const kept = told.filter(({ point }) => point.back > 0 || point.days === atWindow?.days);
  return kept.map(({ point, backSoFar: soFar }, index) => {
    const here = x(point.days);
    const before = kept[index - 1];
    const after = kept[index + 1];
    const hit = {
      left: before === undefined ? plot.left : (x(before.point.days) + here) / 2,
      right: after === undefined ? plot.right : (x(after.point.days) + here) / 2,
      top: plot.top,
      bottom: plot.bottom,
    };
    return { point, backSoFar: soFar, x: here, y: y(point.survival), hit };
  });
}

function windowOf(
  window: number,
  atWindow: CurvePoint | null,
  x: Scale,
  y: Scale,
  plot: Box,
  room: Room,
): CurveLayout['window'] {
  if (atWindow === null) return { x: x(window), y: null, label: null };
  const lines = [
    `${shareWords(Math.round(atWindow.survival * 1000) / 1000)} not back`,
    `${shareWords(atWindow.low)} to ${shareWords(atWindow.high)}`,
  ];
  const width = Math.max(...lines.map((words) => textWidth(words, room.em)));
  const [box] = placeLabels(
    [
      placesAround(
        x(window),
        { low: y(atWindow.low), high: y(atWindow.high), curve: y(atWindow.survival) },
        width,
        2 * lineOf(room),
        room.em / 2,
      ),
    ],
    [],
    { ...plot, right: plot.right + room.em },
  );
  return {
    x: x(window),
    y: y(atWindow.survival),
    label: box === null || box === undefined ? null : { left: box.left, top: box.top, lines },
  };
}

/** The curve falls to the right, so that below it on the left and above it on the right is nothing. */
function placesAround(
  x: number,
  { low, high, curve }: { readonly low: number; readonly high: number; readonly curve: number },
  width: number,
  height: number,
  away: number,
): readonly Box[] {
  const onLeft = { left: x - away - width, right: x - away };
  const onRight = { left: x + away, right: x + away + width };
  const under = { top: low + away, bottom: low + away + height };
  const over = { top: high - away - height, bottom: high - away };
  return [
    { ...onLeft, ...under },
    { ...onRight, ...over },
    { ...onRight, ...under },
    { ...onLeft, ...over },
    // In the band, where it leaves no room beside it.
    { ...onLeft, top: curve + away, bottom: curve + away + height },
    { ...onRight, top: curve + away, bottom: curve + away + height },
    { ...onLeft, top: curve - away - height, bottom: curve - away },
  ];
}

/** Numbers stand at days that the curve knows them for: first day, window, and the nearest to each mark of the axis. */
function atRiskOf(
  points: readonly CurvePoint[],
  window: number,
  days: readonly Tick[],
  x: Scale,
  room: Room,
): readonly Tick[] {
  const marks = days.map(({ at }) => at);
  const shown = thinLabels(
    points.map(({ days: day, atRisk }) => ({
      at: x(day),
      width: textWidth(countWords(atRisk), room.em),
      rank: day === 0 || day === window ? -1 : Math.min(...marks.map((mark) => Math.abs(mark - x(day)))),
    })),
    2 * room.em,
  );
  return points.flatMap(({ days: day, atRisk }, index) =>
    shown[index] === true ? [{ at: x(day), words: countWords(atRisk) }] : [],
  );
}
