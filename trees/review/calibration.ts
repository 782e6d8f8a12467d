import { murphy, reliabilityBins, type Forecast } from '../statistics/index.ts';
import type { ChosenBlock } from './choose.ts';
import { countedOnce } from './counted-once.ts';
import { NOT_SHOWN, SHOWN } from './fact.ts';
import type { Calibration, CalibrationBin } from './figures.ts';
import type { Tally } from './tally.ts';

const PERCENTS = 101;
const BINS = 10;

/**
 * By whole percent, how often it was shown and how often beside the finding that was confirmed; jobs that had any shown; and by bin,
 * those that had one in it.
 */
type Shown = readonly [count: Uint32Array, events: Uint32Array, jobs: Uint32Array, jobsIn: Uint32Array];

/** The bin of each whole percent. */
const BIN = Uint8Array.from({ length: PERCENTS }, (_, percent) =>
  Math.min(BINS - 1, Math.floor((percent * BINS) / 100)),
);

/** The percentages that the bench showed in confirmed jobs, against what was confirmed. */
export function openCalibration(): Tally<Calibration> {
  const shown: Shown = [
    new Uint32Array(PERCENTS),
    new Uint32Array(PERCENTS),
    new Uint32Array(1),
    new Uint32Array(BINS),
  ];
  return { add: (block) => countShown(shown, block), result: () => calibrationOf(shown) };
}

const countShown = countedOnce(([count, events, of, jobsIn]: Shown, { columns, rows }: ChosenBlock): void => {
  const { finding, listed, shown, confirmed } = columns;
  let jobs = 0;
  for (let at = 0; at < rows.length; at += 1) {
    const row = rows[at] ?? 0;
    const percentages = listed[row] ?? 0;
    if (finding[row] === 0 || percentages === 0) continue;
    jobs += 1;
    const first = row * SHOWN;
    let seen = 0;
    for (let place = first; place < first + percentages; place += 1) {
      const percent = shown[place] ?? 0;
      count[percent] = (count[percent] ?? 0) + 1;
      const bin = BIN[percent] ?? 0;
      if (((seen >> bin) & 1) === 0) jobsIn[bin] = (jobsIn[bin] ?? 0) + 1;
      seen |= 1 << bin;
    }
    const right = confirmed[row] ?? NOT_SHOWN;
    if (right === NOT_SHOWN) continue;
    const percent = shown[first + right] ?? 0;
    events[percent] = (events[percent] ?? 0) + 1;
  }
  of[0] = (of[0] ?? 0) + jobs;
});

function calibrationOf([count, events, of, jobsIn]: Shown): Calibration {
  const all = Array.from(count, (times, percent) => ({
    forecast: percent / 100,
    count: times,
    events: events[percent] ?? 0,
  }));
  const rows: readonly Forecast[] = all.filter((row) => row.count > 0);
  const parts = murphy(rows);
  return {
    jobs: of[0] ?? 0,
    percentages: parts?.count ?? 0,
    brier: parts?.brier ?? null,
    reliability: parts?.reliability ?? null,
    resolution: parts?.resolution ?? null,
    uncertainty: parts?.uncertainty ?? null,
    bins: reliabilityBins(rows, BINS).map(({ from, to, forecast, observed }): CalibrationBin => ({
      from,
      to,
      jobs: jobsIn[Math.round(from * BINS)] ?? 0,
      count: observed.of,
      confirmed: observed.count,
      forecast,
      observed: observed.share,
      low: observed.low,
      high: observed.high,
    })),
  };
}
