import { line } from 'd3-shape';
import { scaleLinear } from 'd3-scale';
import type { MonthPoint } from '../../../trees/review/index.ts';
import { shareStart, shareWords, ticksUp } from './axes.ts';
import { monthNumber, monthTicks, type MonthTicks } from './month-ticks.ts';
import { boxAround, placeLabels } from './place-labels.ts';
import { nameLines, roomForNames, type LineNames } from './name-lines.ts';
import { lineOf, type Box, type Room, type Tick } from './room.ts';
import { textWidth } from './text-width.ts';

/** Ems: the drawing's height, and the widest a month gets, so that few months do not lie far apart. */
const HEIGHT = 15;
const WIDEST_MONTH = 6;

export type MonthState = 'within' | 'below' | 'above' | 'provisional';

export interface LaidMonth {
  readonly point: MonthPoint;
  readonly state: MonthState;
  readonly x: number;
  readonly y: number;
  /** All of its column, to point at. */
  readonly hit: Box;
}

export interface ControlLayout extends LineNames {
  readonly height: number;
  readonly plot: Box;
  /** Where the axis begins; above 0 it is cut. */
  readonly start: number;
  readonly ticks: readonly Tick[];
  readonly months: MonthTicks;
  readonly points: readonly LaidMonth[];
  /** The marks' size, 1 or less where months are narrow. */
  readonly size: number;
  /** The points joined, month after month; broken where a month has no job. */
  readonly joined: string;
  readonly limits: { readonly low: string; readonly high: string };
  /** The centre line's height and words; null where no month can be judged. */
  readonly centre: { readonly y: number; readonly words: string } | null;
  /** Words at points out of control that have room for them. */
  readonly labels: readonly { readonly x: number; readonly y: number; readonly words: string }[];
}

/** Lays out a p-chart of months in their order. Needs one month at least. */
export function layControlChart(
  points: readonly MonthPoint[],
  centre: number | null,
  room: Room,
): ControlLayout {
  const first = points[0]?.month ?? '2000-01';
  const count = monthNumber(points.at(-1)?.month ?? first) - monthNumber(first) + 1;
  const { plot, step } = plotOf(count, room);
  const judged = centre !== null;
  const lowest = Math.min(...points.map(({ rate, low }) => (judged ? Math.min(rate, low) : rate)));
  const start = judged ? shareStart(lowest) : 0;
  const y = scaleLinear([start, 1], [plot.bottom, plot.top]);
  const laid = points.map((point): LaidMonth => {
    const x = plot.left + (monthNumber(point.month) - monthNumber(first) + 0.5) * step;
    const hit = { left: x - step / 2, right: x + step / 2, top: plot.top, bottom: plot.bottom };
    return { point, state: stateOf(point), x, y: y(point.rate), hit };
  });
  return {
    height: plot.bottom + 2 * lineOf(room) + room.em,
    plot,
    start,
    ticks: ticksUp([start, 1], [plot.bottom, plot.top], shareWords, 2.4 * room.em),
    months: monthTicks(first, count, plot.left + step / 2, step, room.em),
    points: laid,
    size: Math.min(1, step / (0.7 * room.em)),
    joined: joinedOf(laid),
    limits: judged
      ? { low: stepsOf(laid, step, ({ low }) => y(low)), high: stepsOf(laid, step, ({ high }) => y(high)) }
      : { low: '', high: '' },
    centre: judged ? { y: y(centre), words: shareWords(Math.round(centre * 1000) / 1000) } : null,
    ...(judged ? namesOf(points.at(-1), centre, y, plot, room) : { ends: [], leaders: [] }),
    labels: labelsOf(laid, plot, room),
  };
}

function plotOf(count: number, room: Room): { readonly plot: Box; readonly step: number } {
  const left = Math.ceil(textWidth('100 %', room.em) + room.em);
  const most = room.width - left - roomForNames('centre', room);
  const step = Math.min(most / count, WIDEST_MONTH * room.em);
  const top = lineOf(room) + room.em;
  return { plot: { left, right: left + step * count, top, bottom: top + HEIGHT * room.em }, step };
}

function stateOf({ outOfControl, provisional, rate, low }: MonthPoint): MonthState {
  if (!outOfControl) return provisional ? 'provisional' : 'within';
  return rate < low ? 'below' : 'above';
}

/** Whether the month before it on the calendar is in the chart, right before it. */
function follows(points: readonly LaidMonth[], index: number): boolean {
  const [before, here] = [points[index - 1], points[index]];
  if (before === undefined || here === undefined) return false;
  return monthNumber(here.point.month) - monthNumber(before.point.month) === 1;
}

function joinedOf(points: readonly LaidMonth[]): string {
  const path = line<LaidMonth>(
    ({ x }) => x,
    ({ y }) => y,
  );
  return runsOf(points)
    .map((run) => path(run) ?? '')
    .join('');
}

function runsOf(points: readonly LaidMonth[]): readonly (readonly LaidMonth[])[] {
  const runs: LaidMonth[][] = [];
  for (const [index, point] of points.entries()) {
    if (follows(points, index)) runs.at(-1)?.push(point);
    else runs.push([point]);
  }
  return runs;
}

function stepsOf(points: readonly LaidMonth[], step: number, yOf: (point: MonthPoint) => number): string {
  return points
    .map(({ point, x }, index) => {
      const y = String(yOf(point));
      const begin = follows(points, index) ? `V${y}` : `M${String(x - step / 2)} ${y}`;
      return `${begin}H${String(x + step / 2)}`;
    })
    .join('');
}

function namesOf(
  last: MonthPoint | undefined,
  centre: number,
  y: (share: number) => number,
  plot: Box,
  room: Room,
): LineNames {
  return nameLines(
    [
      { at: y(last?.high ?? 1), lines: ['limit'], strong: false },
      { at: y(centre), lines: ['centre', shareWords(centre)], strong: true },
      { at: y(last?.low ?? 0), lines: ['limit'], strong: false },
    ],
    plot,
    room,
  );
}

function labelsOf(points: readonly LaidMonth[], plot: Box, room: Room): ControlLayout['labels'] {
  const out = points.filter(({ state }) => state === 'below' || state === 'above');
  const wordsOf = ({ state, point }: LaidMonth): string =>
    `${state} ${shareWords(Math.round(point.rate * 100) / 100)}`;
  const reach = 0.6 * room.em;
  const places = placeLabels(
    out.map((month) => {
      const width = textWidth(wordsOf(month), room.em, 'sans');
      const tops =
        month.state === 'below'
          ? [month.y + reach, month.y - reach - lineOf(room)]
          : [month.y - reach - lineOf(room), month.y + reach];
      const lefts = [month.x - width / 2, plot.left, plot.right - width].filter(
        (left) => left <= month.x && left + width >= month.x,
      );
      return tops.flatMap((top) =>
        lefts.map((left) => ({ left, right: left + width, top, bottom: top + lineOf(room) })),
      );
    }),
    points.map(({ x, y }) => boxAround(x, y, 0.4 * room.em)),
    { ...plot, top: plot.top - room.em, bottom: plot.bottom + room.em / 4 },
  );
  return places.flatMap((box, index) => {
    const month = out[index];
    if (box === null || month === undefined) return [];
    return [{ x: (box.left + box.right) / 2, y: (box.top + box.bottom) / 2, words: wordsOf(month) }];
  });
}
