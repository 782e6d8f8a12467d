import { lineOf, type Box, type Room } from './room.ts';
import { settleLabels } from './settle-labels.ts';

/** What a line is called at its right end, in lines under each other around `at`. */
export interface LineName {
  readonly at: number;
  readonly lines: readonly string[];
  readonly strong: boolean;
}

export interface LineEnd {
  readonly y: number;
  readonly words: string;
  readonly strong: boolean;
}

/** Sets names of lines, given from the top down, beside the plot so that none is over another. */
export function nameLines(names: readonly LineName[], plot: Box, room: Room): readonly LineEnd[] {
  const line = lineOf(room);
  const middles = settleLabels(
    names.map(({ at, lines }) => ({ at, height: lines.length * line })),
    plot.top - line / 2,
    plot.bottom + line / 2,
  );
  return names.flatMap(({ lines, strong }, name) =>
    lines.map((words, index) => ({
      y: (middles[name] ?? plot.top) + (index - (lines.length - 1) / 2) * line,
      words,
      strong,
    })),
  );
}
