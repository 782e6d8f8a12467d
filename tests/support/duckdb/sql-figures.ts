import type { DuckDBConnection } from '@duckdb/node-api';
import { SHOWN, type ReviewFilter } from '../../../trees/review/index.ts';

/** Figures by name, so that those of two ways to come by them can be laid side by side. */
export type NamedFigures = ReadonlyMap<string, number>;

const DAY = 86_400_000;

/** A question: its rows give a name's parts in all columns but the last ones, which are figures. */
interface Question {
  readonly of: string;
  readonly figures: readonly string[];
  readonly sql: string;
}

/** The review's figures of a filter, in SQL, as they are known at `now`. */
export async function sqlFigures(
  connection: DuckDBConnection,
  filter: ReviewFilter,
  now: number,
): Promise<NamedFigures> {
  await connection.run(`CREATE OR REPLACE TEMP VIEW chosen AS ${chosen(filter, now)}`);
  const named = new Map<string, number>();
  for (const { of, figures, sql } of questions(filter, now)) {
    const rows = (await connection.runAndReadAll(sql)).getRowsJS();
    for (const row of rows) {
      const key = row.slice(0, row.length - figures.length).map(String);
      figures.forEach((figure, at) => {
        const value = row[row.length - figures.length + at];
        if (value !== null)
          named.set([of, ...key, figure].filter((part) => part !== '').join(' '), Number(value));
      });
    }
  }
  return named;
}

function chosen(filter: ReviewFilter, now: number): string {
  const { from, to, tree, board, technician, window } = filter;
  const limits = [
    ...(from === null ? [] : [`closed_at >= ${String(Date.parse(from))}`]),
    ...(to === null ? [] : [`closed_at < ${String(Date.parse(to) + DAY)}`]),
    ...(tree === null ? [] : [`tree = '${tree}'`]),
    ...(board === null ? [] : [`board = '${board}'`]),
    ...(technician === null ? [] : [`technician = '${technician}'`]),
  ];
  const ends = `closed_at + ${String(window * DAY)}`;
  return `SELECT *,
      outcome = 'fixed' AND failed = 0 AND NOT coalesce(back_at <= ${String(now)} AND back_at < ${ends}, false) AS first_time,
      ${ends} > ${String(now)} AS is_open
    FROM job WHERE ${['true', ...limits].join(' AND ')}`;
}

function questions(filter: ReviewFilter, now: number): readonly Question[] {
  const fix = ['closed', 'fixed', 'stillOpen', 'judgedClosed', 'judgedFixed'];
  const counted = `count(*), count(*) FILTER (first_time), count(*) FILTER (first_time AND is_open),
    count(*) FILTER (NOT is_open), count(*) FILTER (first_time AND NOT is_open)`;
  const group = (of: string, by: string, where = 'true'): Question => ({
    of,
    figures: fix,
    sql: `SELECT ${by}, ${counted} FROM chosen WHERE ${where} GROUP BY ALL`,
  });
  return [
    { of: 'all', figures: fix, sql: `SELECT ${counted} FROM chosen` },
    group('tree', 'tree'),
    group('symptom', 'tree, symptom'),
    group('finding', 'tree, finding', 'finding IS NOT NULL'),
    group('board', 'tree, board'),
    group('technician', 'technician'),
    months(filter, now),
    trend(filter, now),
    {
      of: 'outcome',
      figures: ['count', 'minutes'],
      sql: 'SELECT outcome, count(*), sum(at_bench) / 60000.0 FROM chosen GROUP BY ALL',
    },
    {
      of: 'pareto',
      figures: ['jobs', 'minutes', 'parts'],
      sql: `SELECT tree, finding, count(*), sum(at_bench) / 60000.0, sum(parts) FROM chosen
        WHERE finding IS NOT NULL GROUP BY ALL`,
    },
    ...['to_finding', 'to_proof'].flatMap((column) => spreads(column)),
    comebackFree(filter, now),
    ...findingComebacks(filter, now),
    ...likeForLike,
    branches,
    ...calibration,
    ...triedFirst,
    mix,
    ...planner,
  ];
}

/** The p-chart of the months; beyond a limit in small ones the binomial tail, by its terms, decides. */
function months({ window }: ReviewFilter, now: number): Question {
  const chance = `exp(lgamma(n + 1) - lgamma(j + 1) - lgamma(n - j + 1)
    + j * ln(greatest(c, 1e-300)) + (n - j) * ln(greatest(1 - c, 1e-300)))`;
  const tail = (from: string, to: string): string =>
    `list_sum(list_transform(range(${from}, ${to}), j -> ${chance})) <= 0.00135`;
  const at = String(now);
  return {
    of: 'month',
    figures: ['closed', 'fixed', 'provisional', 'low', 'high', 'out'],
    sql: `WITH months AS (SELECT date_trunc('month', make_timestamp(closed_at * 1000)) AS begins, count(*) AS n,
        count(*) FILTER (first_time) AS k FROM chosen GROUP BY begins),
      ended AS (SELECT *, epoch_ms(begins + INTERVAL 1 MONTH) AS ends, ends + ${String(window * DAY)} > ${at} AS provisional FROM months),
      line AS (SELECT sum(k) FILTER (NOT provisional) / (sum(n) FILTER (NOT provisional))::DOUBLE AS c FROM ended),
      charted AS (SELECT *, 3 * sqrt(c * (1 - c) / n) AS reach, least(n * c, n * (1 - c)) >= 5 AS is_large FROM ended, line)
      SELECT strftime(begins, '%Y-%m'), n, k, provisional, coalesce(greatest(0, c - reach), 0), coalesce(least(1, c + reach), 1),
        coalesce(CASE WHEN k / n < greatest(0, c - reach) THEN (NOT provisional OR ends <= ${at}) AND (is_large OR ${tail('0', 'k + 1')})
          WHEN k / n > least(1, c + reach) THEN NOT provisional AND (is_large OR ${tail('k', 'n + 1')}) ELSE false END, false)
      FROM charted`,
  };
}

/** The line through the months that are not provisional, job by job. */
function trend({ window }: ReviewFilter, now: number): Question {
  return {
    of: 'trend',
    figures: ['months', 'perMonth', 'deviations'],
    sql: `WITH dated AS (SELECT date_trunc('month', make_timestamp(closed_at * 1000)) AS begins, first_time::INTEGER AS y FROM chosen),
      numbered AS (SELECT datediff('month', TIMESTAMP '2024-01-01', begins) AS x, y FROM dated
        WHERE epoch_ms(begins + INTERVAL 1 MONTH) + ${String(window * DAY)} <= ${String(now)})
      SELECT count(DISTINCT x), regr_slope(y, x), sqrt(count(*)) * corr(y, x) FROM numbered
      HAVING count(DISTINCT x) > 1 AND sum(y) > 0 AND sum(y) < count(*)`,
  };
}

function spreads(column: string): readonly Question[] {
  const quartiles = `quantile_cont(${column}::DOUBLE, [0.25, 0.5, 0.75])`;
  const figures = ['jobs', 'mean', 'lower', 'median', 'upper', 'error'];
  const shown = 'jobs, mean / 60000, q[1] / 60000, q[2] / 60000, q[3] / 60000, sqrt(variance / jobs) / 60000';
  const from = `count(${column}) AS jobs, avg(${column}::DOUBLE) AS mean, ${quartiles} AS q, var_samp(${column}::DOUBLE) AS variance FROM chosen WHERE ${column} IS NOT NULL`;
  return [
    { of: column, figures, sql: `SELECT ${shown} FROM (SELECT ${from}) WHERE jobs > 0` },
    {
      of: `${column} by`,
      figures,
      sql: `SELECT tree, symptom, ${shown} FROM (SELECT tree, symptom, ${from} GROUP BY ALL)`,
    },
  ];
}

/** When fixed units were back or lost from sight: a day begun counts, and who is not back is lost now. */
function ended(now: number): string {
  const isBack = `coalesce(back_at <= ${String(now)}, false)`;
  return `ended AS (SELECT tree, finding, ${isBack} AS is_back,
      greatest(CASE WHEN ${isBack} THEN back_at ELSE ${String(now)} END - closed_at, 0) // ${String(DAY)} + 1 AS day
    FROM chosen WHERE outcome = 'fixed')`;
}

/** Kaplan-Meier with Greenwood's error. */
function comebackFree({ window }: ReviewFilter, now: number): Question {
  return {
    of: 'back-free',
    figures: ['atRisk', 'back', 'survival', 'error'],
    sql: `WITH ${ended(now)},
      daily AS (SELECT day, count(*) FILTER (is_back) AS back, count(*) AS gone FROM ended GROUP BY day),
      risk AS (SELECT day, back, sum(gone) OVER (ORDER BY day DESC) AS at_risk FROM daily),
      events AS (SELECT day, back::DOUBLE AS d, at_risk::DOUBLE AS n FROM risk WHERE back > 0 AND day <= ${String(2 * window)}),
      curve AS (SELECT day, n, d, product(1 - d / n) OVER (ORDER BY day) AS s,
        sum(CASE WHEN n = d THEN 0 ELSE d / (n * (n - d)) END) OVER (ORDER BY day) AS v FROM events)
      SELECT day, n, d, s, s * sqrt(v) FROM curve`,
  };
}

/** By finding; each unit is expected back as often as the hazard of all says, added up over the days that it was in sight. */
function findingComebacks({ window }: ReviewFilter, now: number): readonly Question[] {
  const last = String(window);
  return [
    {
      of: 'finding-back',
      figures: ['fixed', 'back', 'expected'],
      sql: `WITH ${ended(now)},
        daily AS (SELECT day, count(*) FILTER (is_back) AS back, count(*) AS gone FROM ended GROUP BY day),
        risk AS (SELECT day, back / sum(gone) OVER (ORDER BY day DESC) AS hazard FROM daily),
        summed AS (SELECT day, sum(hazard) OVER (ORDER BY day) AS hazard FROM risk WHERE day <= ${last})
        SELECT tree, finding, count(*), count(*) FILTER (is_back AND ended.day <= ${last}), coalesce(sum(summed.hazard), 0)
        FROM ended ASOF LEFT JOIN summed ON ended.day >= summed.day WHERE finding IS NOT NULL GROUP BY ALL`,
    },
    {
      of: 'finding-free',
      figures: ['survival'],
      sql: `WITH ${ended(now)},
        daily AS (SELECT tree, finding, day, count(*) FILTER (is_back) AS back, count(*) AS gone FROM ended
          WHERE finding IS NOT NULL GROUP BY ALL),
        risk AS (SELECT *, sum(gone) OVER (PARTITION BY tree, finding ORDER BY day DESC) AS at_risk FROM daily),
        free AS (SELECT tree, finding, product(1 - CASE WHEN day <= ${last} THEN back / at_risk ELSE 0 END) AS s, max(day) AS until
          FROM risk GROUP BY ALL)
        SELECT tree, finding, s FROM free WHERE until >= ${last} OR s = 0`,
    },
  ];
}

const JUDGED = `judged AS (SELECT technician, tree, symptom, count(*) AS n, count(*) FILTER (first_time) AS k FROM chosen
    WHERE NOT is_open GROUP BY ALL),
  alike AS (SELECT *, n * sum(k) OVER (PARTITION BY tree, symptom) / sum(n) OVER (PARTITION BY tree, symptom) AS e FROM judged)`;

/** Technicians against all jobs of the same symptoms, of those whose window has passed. */
const likeForLike: readonly Question[] = [
  {
    of: 'like for like',
    figures: ['closed', 'fixed', 'expected'],
    sql: `WITH ${JUDGED} SELECT technician, sum(n), sum(k), sum(e) FROM alike GROUP BY technician`,
  },
  {
    of: 'like for like',
    figures: ['closed', 'fixed', 'expected'],
    sql: `WITH ${JUDGED} SELECT technician, tree, symptom, n, k, e FROM alike`,
  },
];

/** Ways walked down the current paths: each step whose test they have an answer to. */
const branches: Question = {
  of: 'branch',
  figures: ['took'],
  sql: `WITH RECURSIVE taken AS (SELECT way, tree, symptom, count(*) AS jobs FROM chosen WHERE way > 0 GROUP BY ALL),
    walk AS (
      SELECT way, jobs, tree, step FROM taken JOIN path_first USING (tree, symptom)
      UNION ALL
      SELECT way, jobs, walk.tree, branch.next FROM walk
        JOIN path_branch AS branch ON branch.tree = walk.tree AND branch.step = walk.step AND branch.next IS NOT NULL
        JOIN answer USING (way) WHERE answer.test = branch.test AND answer.result = branch.result)
    SELECT walk.tree, branch.symptom, step_id, branch.result, sum(jobs) FROM walk
      JOIN path_branch AS branch ON branch.tree = walk.tree AND branch.step = walk.step
      JOIN answer USING (way) WHERE answer.test = branch.test AND answer.result = branch.result GROUP BY ALL`,
};

const SHOWN_ROWS = `SELECT unnest([${Array.from({ length: SHOWN }, (_, place) => `shown${String(place)}`).join(', ')}]) AS percent,
    unnest(range(${String(SHOWN)})) AS place, confirmed FROM chosen WHERE finding IS NOT NULL AND listed > 0`;

const calibration: readonly Question[] = [
  {
    of: 'calibration',
    figures: ['jobs'],
    sql: 'SELECT count(*) FROM chosen WHERE finding IS NOT NULL AND listed > 0',
  },
  {
    of: 'calibration',
    figures: ['percentages', 'brier', 'reliability', 'resolution', 'uncertainty'],
    sql: `WITH given AS (SELECT percent / 100 AS f, count(*)::DOUBLE AS n, (count(*) FILTER (place = confirmed))::DOUBLE AS o
        FROM (${SHOWN_ROWS}) WHERE percent IS NOT NULL GROUP BY percent),
      base AS (SELECT sum(n) AS all_n, sum(o) / sum(n) AS b FROM given)
      SELECT any_value(all_n), sum(o * (1 - f) ** 2 + (n - o) * f ** 2) / any_value(all_n),
        sum(n * (f - o / n) ** 2) / any_value(all_n), sum(n * (o / n - b) ** 2) / any_value(all_n), any_value(b * (1 - b))
      FROM given, base HAVING count(*) > 0`,
  },
];

const triedFirst: readonly Question[] = [
  {
    of: 'tried',
    figures: ['tried', 'right'],
    sql: 'SELECT tree, tried, count(*), count(*) FILTER (finding = tried) FROM chosen WHERE tried IS NOT NULL GROUP BY ALL',
  },
  {
    of: 'tried',
    figures: ['jobs'],
    sql: `SELECT tree, tried, finding, count(*) AS n FROM chosen WHERE tried <> finding GROUP BY tree, tried, finding
      QUALIFY row_number() OVER (PARTITION BY tree, tried ORDER BY n DESC, finding) <= 5`,
  },
];

/** The last three calendar months up to the last closing's, against all before. */
const mix: Question = {
  of: 'mix',
  figures: ['now', 'before'],
  sql: `WITH since AS (SELECT epoch_ms(date_trunc('month', make_timestamp(max(closed_at) * 1000)) - INTERVAL 2 MONTH) AS since_at FROM chosen),
    counted AS (SELECT tree, finding, count(*) FILTER (closed_at >= since_at) AS now, count(*) FILTER (closed_at < since_at) AS before
      FROM chosen, since WHERE finding IS NOT NULL GROUP BY ALL)
    SELECT tree, finding, now, before FROM counted
    WHERE (SELECT sum(now) FROM counted) > 0 AND (SELECT sum(before) FROM counted) > 0`,
};

const STRATA = `SELECT count(*) FILTER (advised > 0)::DOUBLE AS done, count(*) FILTER (advised = 0)::DOUBLE AS rest,
    avg(to_finding) FILTER (advised > 0) AS done_mean, avg(to_finding) FILTER (advised = 0) AS rest_mean,
    var_samp(to_finding) FILTER (advised > 0) AS done_var, var_samp(to_finding) FILTER (advised = 0) AS rest_var
  FROM chosen WHERE to_finding IS NOT NULL GROUP BY tree, symptom, finding HAVING done >= 5 AND rest >= 5`;

function worth(of: string, n: string): Question {
  const sql = `SELECT sum(${n}), sum(${n} * (rest_mean - done_mean)) / 60000,
      sqrt(sum(${n} * ${n} * (done_var / done + rest_var / rest))) / 60000,
      sum(${n} * ${n} * (done_var / done + rest_var / rest)) ** 2
        / sum(${n} ** 4 * ((done_var / done) ** 2 / (done - 1) + (rest_var / rest) ** 2 / (rest - 1)))
    FROM (${STRATA}) HAVING count(*) > 0`;
  return { of: `planner ${of}`, figures: ['jobs', 'minutes', 'error', 'degrees'], sql };
}

const planner: readonly Question[] = [
  {
    of: 'planner',
    figures: ['taken', 'notTaken'],
    sql: 'SELECT count(*) FILTER (advised > 0), count(*) FILTER (advised = 0) FROM chosen WHERE finding IS NOT NULL',
  },
  { of: 'planner', figures: ['kinds'], sql: `SELECT count(*) FROM (${STRATA})` },
  worth('saved', 'done'),
  worth('wouldSave', 'rest'),
];
