import { scaleLinear } from 'd3-scale';
import { line } from 'd3-shape';
import type { FirstTimeFix, Group } from '../../../trees/review/index.ts';
import { funnelLimits, funnelSide } from '../../../trees/statistics/index.ts';
import { countWords } from '../words/figures.ts';
import { axisEnd, shareStart, shareWords, ticksAlong, ticksUp } from './axes.ts';
import { nameLines, roomForNames, type LineNames } from './name-lines.ts';
import { namePoints } from './name-points.ts';
import type { Leader } from './leader.ts';
import { lineOf, type Box, type Room, type Tick } from './room.ts';
import { textWidth } from './text-width.ts';
import { wrapWords } from './wrap-words.ts';

/** Ems. */
const HEIGHT = 18;
/** Ems: a longer name is cut off; its point says it in full. */
const LONGEST = 18;
/** Numbers of jobs the limits are worked out for: closer where they bend. */
const SAMPLES = 120;

export type Named = Group & { readonly name: string };

/** Jobs that are held against those of others: the ones whose comeback window has passed. */
type Judged = FirstTimeFix['judged'];

/** Anchored at its mark's side, so that another typeface than ours does not run over the mark. */
interface Anchored {
  readonly x: number;
  readonly anchor: 'start' | 'middle' | 'end';
  readonly y: number;
  readonly words: string;
  /** To its mark, where it stands away from it. */
  readonly leader: Leader | null;
}

export interface LaidTechnician {
  readonly technician: Named;
  /** Beyond the limits that chance alone passes in 2 of 1000. */
  readonly outside: boolean;
  readonly x: number;
  readonly y: number;
  readonly label: Anchored | null;
}

export interface FunnelLayout extends LineNames {
  readonly height: number;
  readonly plot: Box;
  /** Where the axis begins; above 0 it is cut, and with it the limits of few jobs. */
  readonly start: number;
  readonly ticks: readonly Tick[];
  readonly jobs: readonly Tick[];
  readonly overall: number;
  readonly within95: { readonly low: string; readonly high: string };
  readonly within998: { readonly low: string; readonly high: string };
  readonly points: readonly LaidTechnician[];
}

/** Lays out a funnel plot of the jobs whose window has passed, about their overall rate; those without one are left out. */
export function layFunnel(technicians: readonly Named[], all: FirstTimeFix, room: Room): FunnelLayout {
  const shown = technicians.filter(({ judged }) => judged.closed > 0);
  const overall = rateOfJudged(all.judged);
  const left = Math.ceil(textWidth('100 %', room.em) + room.em);
  const top = lineOf(room) + room.em;
  const right = room.width - roomForNames('overall', room);
  const plot = { left, right, top, bottom: top + HEIGHT * room.em };
  const most = axisEnd(Math.max(1, ...shown.map(({ judged }) => judged.closed)));
  const x = scaleLinear([0, most], [plot.left, plot.right]);
  const start = shareStart(Math.min(overall, ...shown.map(({ judged }) => rateOfJudged(judged))));
  const y = scaleLinear([start, 1], [plot.bottom, plot.top]);
  const lines = limitsOf(overall, most);
  const path = (of: (limit: Limit) => number): string =>
    line<Limit>(
      ({ jobs }) => x(jobs),
      (limit) => y(of(limit)),
    ).defined((limit) => of(limit) >= start)([...lines]) ?? '';
  return {
    height: plot.bottom + 2 * lineOf(room) + room.em / 2,
    plot,
    start,
    ticks: ticksUp([start, 1], [plot.bottom, plot.top], shareWords, 2.4 * room.em),
    jobs: ticksAlong([0, most], [plot.left, plot.right], countWords, room.em, true),
    overall: y(overall),
    within95: { low: path(({ within95 }) => within95.low), high: path(({ within95 }) => within95.high) },
    within998: { low: path(({ within998 }) => within998.low), high: path(({ within998 }) => within998.high) },
    ...namesOf(overall, lines.at(-1), y, plot, room),
    points: pointsOf(shown, overall, x, y, plot, room),
  };
}

/** The share of them that were fixed the first time; 0 of none. */
export function rateOfJudged({ closed, fixed }: Judged): number {
  return closed === 0 ? 0 : fixed / closed;
}

/** On which side of the funnel about the shop's rate a technician lies; what a table says of it is what the plot shows. */
export function sideOfJudged({ closed, fixed }: Judged, overall: number): ReturnType<typeof funnelSide> {
  return funnelSide(fixed, closed, overall);
}

type Limit = ReturnType<typeof funnelLimits> & { readonly jobs: number };
type Scale = (value: number) => number;

function limitsOf(rate: number, most: number): readonly Limit[] {
  const jobs = Array.from({ length: SAMPLES }, (_, index) =>
    Math.max(1, Math.round(most * ((index + 1) / SAMPLES) ** 2)),
  );
  return [...new Set(jobs)].map((count) => ({ ...funnelLimits(rate, count), jobs: count }));
}

function namesOf(rate: number, last: Limit | undefined, y: Scale, plot: Box, room: Room): LineNames {
  if (last === undefined) return { ends: [], leaders: [] };
  return nameLines(
    [
      { at: y(last.within998.high), lines: ['99.8\u202f%'], strong: false },
      { at: y(last.within95.high), lines: ['95\u202f%'], strong: false },
      { at: y(rate), lines: ['overall', shareWords(rate)], strong: true },
      { at: y(last.within95.low), lines: ['95\u202f%'], strong: false },
      { at: y(last.within998.low), lines: ['99.8\u202f%'], strong: false },
    ],
    plot,
    room,
  );
}

function pointsOf(
  technicians: readonly Named[],
  target: number,
  x: Scale,
  y: Scale,
  plot: Box,
  room: Room,
): readonly LaidTechnician[] {
  const laid = technicians.map((technician) => {
    const { judged } = technician;
    const outside = sideOfJudged(judged, target) !== 'within';
    const [name = ''] = wrapWords(technician.name, LONGEST * room.em, room.em, 1);
    const words = outside ? `${name}, outside` : name;
    return { technician, outside, words, x: x(judged.closed), y: y(rateOfJudged(judged)) };
  });
  const names = namePoints(
    laid.map(({ words, outside, ...point }) => ({
      ...point,
      width: textWidth(words, room.em, 'sans'),
      first: outside,
    })),
    { ...plot, top: plot.top - room.em },
    room,
  );
  return laid.map(({ words, ...point }, index) => {
    const name = names[index];
    if (name === null || name === undefined) return { ...point, label: null };
    const { box, leader } = name;
    return { ...point, label: { ...anchorOf(box, point.x), y: (box.top + box.bottom) / 2, words, leader } };
  });
}

function anchorOf({ left, right }: Box, mark: number): Pick<Anchored, 'x' | 'anchor'> {
  if (left >= mark) return { x: left, anchor: 'start' };
  return right <= mark ? { x: right, anchor: 'end' } : { x: (left + right) / 2, anchor: 'middle' };
}
