import { scaleLinear } from 'd3-scale';
import { shareWords, ticksAlong } from './axes.ts';
import { layRows, type LaidRow, type Rows } from './lay-rows.ts';
import type { Room, Tick } from './room.ts';

export interface Bar {
  readonly key: string;
  readonly title: string;
  /** What tells it from others of that title. */
  readonly soft?: string | undefined;
  readonly value: number;
  readonly words: string;
}

export interface LaidBar {
  readonly bar: Bar;
  readonly row: LaidRow;
  readonly to: number;
  /** Its and all larger ones' share of the total. */
  readonly upToHere: number;
  readonly upToX: number;
}

export interface ParetoLayout extends Rows {
  readonly ticks: readonly Tick[];
  readonly bars: readonly LaidBar[];
  /** The cumulative share from row to row; nothing where it would run through the titles. */
  readonly cumulative: string;
}

/** The bars, the largest first; those of equal value stay in their order. */
export function largestFirst(bars: readonly Bar[]): readonly Bar[] {
  return [...bars].sort((a, b) => b.value - a.value);
}

/** Lays out a Pareto: bars, largest first, and the share they make up together, on one axis of the total. */
export function layPareto(bars: readonly Bar[], total: number, room: Room): ParetoLayout {
  const shares = cumulativeOf(bars, total);
  const rows = layRows(
    bars.map(({ title, soft, words }, index) => ({
      title,
      soft,
      words: `${words}, ${shareWords(Math.round((shares[index] ?? 0) * 100) / 100)} so far`,
      note: null,
    })),
    room,
    { above: 0.4, below: 2.8, names: 0 },
  );
  const pixels = [rows.plot.left, rows.plot.right] as const;
  const x = scaleLinear([0, 1], pixels);
  const laid = rows.rows.flatMap((row, index): readonly LaidBar[] => {
    const bar = bars[index];
    if (bar === undefined) return [];
    const upToHere = shares[index] ?? 0;
    return [{ bar, row, to: x(shareOf(bar.value, total)), upToHere, upToX: x(upToHere) }];
  });
  return {
    ...rows,
    ticks: ticksAlong([0, 1], pixels, shareWords, room.em),
    bars: laid,
    cumulative: rows.beside
      ? laid
          .map(({ upToX, row }, index) => `${index === 0 ? 'M' : 'L'}${String(upToX)} ${String(row.middle)}`)
          .join('')
      : '',
  };
}

function cumulativeOf(bars: readonly Bar[], total: number): readonly number[] {
  let sum = 0;
  return bars.map(({ value }) => shareOf((sum += value), total));
}

function shareOf(value: number, total: number): number {
  return total > 0 ? Math.min(1, value / total) : 0;
}
