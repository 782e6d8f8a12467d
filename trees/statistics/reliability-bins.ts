import type { Forecast } from './murphy.ts';
import { rateOf, type Rate } from './rate-of.ts';

/** Forecasts from `from` up to but not including `to` (1 is in the last bin). */
export interface ReliabilityBin {
  readonly from: number;
  readonly to: number;
  /** Mean forecast of the bin. */
  readonly forecast: number;
  /** How often what they spoke of came, with the 95 % Wilson interval. */
  readonly observed: Rate;
}

/**
 * The points of a reliability diagram (Murphy & Winkler 1977, Appl. Statist. 26:41-47): forecasts gathered in `bins` bins of
 * one width, ascending. A bin that holds none is left out.
 */
export function reliabilityBins(rows: readonly Forecast[], bins: number): readonly ReliabilityBin[] {
  return Array.from({ length: bins }, (_, index) => index).flatMap((index) => {
    const [from, to] = [index / bins, (index + 1) / bins];
    const within = rows.filter(({ forecast }) => forecast >= from && (forecast < to || index === bins - 1));
    const count = within.reduce((sum, row) => sum + row.count, 0);
    if (count === 0) return [];
    const forecast = within.reduce((sum, row) => sum + row.count * row.forecast, 0) / count;
    const events = within.reduce((sum, row) => sum + row.events, 0);
    return [{ from, to, forecast, observed: rateOf(events, count) }];
  });
}
