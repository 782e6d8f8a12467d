import { murphy, reliabilityBins, type Forecast } from '../statistics/index.ts';
import type { Chosen } from './choose.ts';
import { NOT_SHOWN, SHOWN } from './fact.ts';
import type { Calibration, CalibrationBin } from './figures.ts';

const PERCENTS = 101;
const BINS = 10;

/** The percentages that the bench showed in confirmed jobs, against what was confirmed. */
export function calibrationOf(chosen: Chosen): Calibration {
  const { jobs, rows } = forecastsOf(chosen);
  const parts = murphy(rows);
  return {
    jobs,
    percentages: parts?.count ?? 0,
    brier: parts?.brier ?? 0,
    reliability: parts?.reliability ?? 0,
    resolution: parts?.resolution ?? 0,
    uncertainty: parts?.uncertainty ?? 0,
    bins: reliabilityBins(rows, BINS).map(({ from, to, forecast, observed }): CalibrationBin => ({
      from,
      to,
      count: observed.of,
      confirmed: observed.count,
      forecast,
      observed: observed.share,
      low: observed.low,
      high: observed.high,
    })),
  };
}

/** The jobs that had percentages shown, and by whole percent how often it was shown and was the confirmed finding's. */
function forecastsOf({ blocks }: Chosen): { readonly jobs: number; readonly rows: readonly Forecast[] } {
  const count = new Uint32Array(PERCENTS);
  const events = new Uint32Array(PERCENTS);
  let jobs = 0;
  for (const { columns, rows } of blocks) {
    const { finding, listed, shown, confirmed } = columns;
    for (let at = 0; at < rows.length; at += 1) {
      const row = rows[at] ?? 0;
      const percentages = listed[row] ?? 0;
      if (finding[row] === 0 || percentages === 0) continue;
      jobs += 1;
      const first = row * SHOWN;
      for (let place = first; place < first + percentages; place += 1) {
        const percent = shown[place] ?? 0;
        count[percent] = (count[percent] ?? 0) + 1;
      }
      const right = confirmed[row] ?? NOT_SHOWN;
      if (right === NOT_SHOWN) continue;
      const percent = shown[first + right] ?? 0;
      events[percent] = (events[percent] ?? 0) + 1;
    }
  }
  const rows = Array.from(count, (shownTimes, percent) => ({
    forecast: percent / 100,
    count: shownTimes,
    events: events[percent] ?? 0,
  }));
  return { jobs, rows: rows.filter((row) => row.count > 0) };
}
