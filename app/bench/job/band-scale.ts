import type { ResultLimits } from '../../../trees/document/index.ts';

/**
 * Where a reading lies on a line whose bands are drawn equally wide, 0..1 from the line's start. Within a band with two
 * limits it is in proportion, by decades where the limits are a decade or more apart. In an open band it nears the far end
 * as it leaves the limit, halved at one `span` away: the neighbouring limits' distance, or the limit itself where there is
 * no neighbour.
 */
export function placeOnBands(limits: readonly ResultLimits[], value: number | 'OL'): number | null {
  if (limits.length === 0) return null;
  if (value === 'OL') return 1 - 0.25 / limits.length;
  const at = limits.findIndex(({ from, to }) => from <= value && value < to);
  const band = limits[at];
  if (band === undefined) return null;
  return (at + within(band, spanOf(limits), value)) / limits.length;
}

const DECADE = 10;

function within({ from, to }: ResultLimits, span: number, value: number): number {
  if (from > 0 && to >= DECADE * from && to < Infinity) return Math.log(value / from) / Math.log(to / from);
  if (from > -Infinity && to < Infinity) return (value - from) / (to - from);
  if (from > -Infinity) return 1 - span / (span + (value - from));
  if (to < Infinity) return span / (span + (to - value));
  return 0.5;
}

function spanOf(limits: readonly ResultLimits[]): number {
  const bounds = limits.map(({ from }) => from).filter(Number.isFinite);
  const [first = 0, last = 0] = [bounds[0], bounds.at(-1)];
  return last > first ? last - first : Math.abs(first) || 1;
}
