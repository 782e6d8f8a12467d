/** One forecast probability (0..1), how often it was given, and how often what it spoke of came. */
export interface Forecast {
  readonly forecast: number;
  readonly count: number;
  readonly events: number;
}

/** Murphy's decomposition: `brier` = `reliability` - `resolution` + `uncertainty`. */
export interface Murphy {
  readonly count: number;
  /** Mean square of forecast less what came (1 or 0): 0 is perfect. */
  readonly brier: number;
  /** Mean square of forecast less the share that came where it was given: 0 is perfect. */
  readonly reliability: number;
  /** Mean square of that share less the share over all: more is better. */
  readonly resolution: number;
  /** Brier score of always giving the share over all. */
  readonly uncertainty: number;
  /** 1 - brier / uncertainty: 1 is perfect, 0 no better than always giving the share over all. Null where all or none came. */
  readonly skill: number | null;
}

/**
 * The Brier score of forecasts (Brier 1950, Mon. Weather Rev. 78:1-3) and its decomposition (Murphy 1973, J. Appl. Meteor.
 * 12:595-600), exact where each row holds all of one forecast. Null of none.
 */
export function murphy(rows: readonly Forecast[]): Murphy | null {
  const count = sumOf(rows, (row) => row.count);
  if (count === 0) return null;
  const base = sumOf(rows, (row) => row.events) / count;
  const given = rows.filter((row) => row.count > 0);
  const mean = (ofRow: (row: Forecast) => number): number => sumOf(given, ofRow) / count;
  const brier = mean(
    ({ forecast, count: n, events }) => events * (1 - forecast) ** 2 + (n - events) * forecast ** 2,
  );
  const uncertainty = base * (1 - base);
  return {
    count,
    brier,
    reliability: mean(({ forecast, count: n, events }) => n * (forecast - events / n) ** 2),
    resolution: mean(({ count: n, events }) => n * (events / n - base) ** 2),
    uncertainty,
    skill: uncertainty === 0 ? null : 1 - brier / uncertainty,
  };
}

function sumOf(rows: readonly Forecast[], ofRow: (row: Forecast) => number): number {
  return rows.reduce((sum, row) => sum + ofRow(row), 0);
}
