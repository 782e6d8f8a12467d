import type { Leader } from './leader.ts';
import { lineOf, type Box, type Room } from './room.ts';
import { settleLabels } from './settle-labels.ts';
import { textWidth } from './text-width.ts';

/** What a line is called at its right end, in lines under each other around `at`. */
export interface LineName {
  readonly at: number;
  readonly lines: readonly string[];
  readonly strong: boolean;
}

export interface LineEnd {
  readonly x: number;
  readonly y: number;
  readonly words: string;
  readonly strong: boolean;
}

/** Names of lines as they stand, and where any of them could be taken for another line's, from each line's end to its name. */
export interface LineNames {
  readonly ends: readonly LineEnd[];
  readonly leaders: readonly Leader[];
}

/** Ems: from the plot to its names, without leaders and with them; how wide those are; and what stays free to the right. */
const AWAY = 0.5;
const BEHIND_LEADER = 2;
const LEADER = { from: 0.2, to: 1.7 };
const SPARE = 0.5;

/** What the names of lines need to the right of a plot, in CSS pixels. */
export function roomForNames(longest: string, { em }: Room): number {
  return Math.ceil(textWidth(longest, em, 'sans') + (BEHIND_LEADER + SPARE) * em);
}

/** Sets names of lines, given from the top down, beside the plot so that none is over another. Lines outside the plot have none. */
export function nameLines(names: readonly LineName[], plot: Box, room: Room): LineNames {
  const line = lineOf(room);
  const drawn = names.filter(({ at }) => at >= plot.top - 1e-6 && at <= plot.bottom + 1e-6);
  const middles = settleLabels(
    drawn.map(({ at, lines }) => ({ at, height: lines.length * line })),
    plot.top - line / 2,
    plot.bottom + line / 2,
  );
  const placed = drawn.map((name, index) => ({ ...name, middle: middles[index] ?? name.at }));
  const isPlain = placed.every((name) => standsAtItsLine(name, placed, line));
  const x = plot.right + (isPlain ? AWAY : BEHIND_LEADER) * room.em;
  return {
    ends: placed.flatMap(({ middle, lines, strong }) =>
      heightsOf(middle, lines, line).map((y, index) => ({ x, y, words: lines[index] ?? '', strong })),
    ),
    leaders: isPlain
      ? []
      : placed.map(({ at, middle }) => ({
          fromX: plot.right + LEADER.from * room.em,
          fromY: at,
          toX: plot.right + LEADER.to * room.em,
          toY: middle,
        })),
  };
}

type Placed = LineName & { readonly middle: number };

/** Whether a name is within half a line of its line's end, and all that it says nearer to that than to any other. */
function standsAtItsLine({ at, middle, lines }: Placed, all: readonly Placed[], line: number): boolean {
  return (
    Math.abs(middle - at) <= line / 2 &&
    heightsOf(middle, lines, line).every((y) =>
      all.every((other) => other.at === at || Math.abs(other.at - y) > Math.abs(at - y)),
    )
  );
}

function heightsOf(middle: number, lines: readonly string[], line: number): readonly number[] {
  return lines.map((_, index) => middle + (index - (lines.length - 1) / 2) * line);
}
