import type { CalibrationBin, CurvePoint, FirstTimeFix, MonthPoint } from '../../../trees/review/index.ts';
import { kaplanMeier, pChart, rateOf } from '../../../trees/statistics/index.ts';
import type { Bar } from '../../../app/review/plots/lay-pareto.ts';
import type { Named } from '../../../app/review/plots/lay-funnel.ts';
import type { MixRow, ShareRow, SpreadRow } from '../../../app/review/plots/row-spans.ts';
import { seededDraws } from '../../../trees/review/seeded.ts';

type Draw = () => number;

/** Figures of each plot. */
export interface Figures {
  readonly months: readonly MonthPoint[];
  readonly centre: number | null;
  readonly curve: readonly CurvePoint[];
  readonly window: number;
  readonly atWindow: CurvePoint | null;
  readonly technicians: readonly Named[];
  readonly overall: FirstTimeFix;
  readonly bars: readonly Bar[];
  readonly total: number;
  readonly bins: readonly CalibrationBin[];
  readonly branches: readonly ShareRow[];
  readonly spreads: readonly SpreadRow[];
  readonly mix: readonly MixRow[];
}

const WINDOW = 90;

/** Figures by the name in the page's address. All are invented, from a stated seed. */
export const FIGURES: Readonly<Record<string, () => Figures>> = {
  realistic: () => figuresOf({ months: 30, monthly: 60, technicians: 6, findings: 14, branches: 14 }),
  empty: () => figuresOf({ months: 0, monthly: 0, technicians: 0, findings: 0, branches: 0 }),
  one: () => figuresOf({ months: 1, monthly: 3, technicians: 1, findings: 1, branches: 1 }),
  two: () => figuresOf({ months: 2, monthly: 5, technicians: 2, findings: 2, branches: 2 }),
  large: () => figuresOf({ months: 60, monthly: 1700, technicians: 40, findings: 40, branches: 300 }),
};

interface Size {
  readonly months: number;
  /** Jobs a month. */
  readonly monthly: number;
  readonly technicians: number;
  readonly findings: number;
  readonly branches: number;
}

function figuresOf(size: Size): Figures {
  const draw = seededDraws(2026);
  const { months, centre } = monthsOf(size, draw);
  const curve = curveOf(size, draw);
  const { technicians, overall } = techniciansOf(size, draw);
  const bars = barsOf(size, draw);
  return {
    months,
    centre,
    curve,
    window: WINDOW,
    atWindow: curve.find(({ days }) => days === WINDOW) ?? null,
    technicians,
    overall,
    bars,
    total: bars.reduce((sum, { value }) => sum + value, 0),
    bins: binsOf(size, draw),
    branches: branchesOf(size, draw),
    spreads: spreadsOf(size, draw),
    mix: mixOf(size, draw),
  };
}

/** One month is far below the others, one is missing, and the last four are provisional. */
function monthsOf(size: Size, draw: Draw): Pick<Figures, 'months' | 'centre'> {
  const periods = Array.from({ length: size.months }, (_, index) => {
    const of = Math.round(size.monthly * (0.6 + 0.8 * draw()));
    return { count: hits(of, index === 11 ? 0.45 : 0.82, draw), of };
  });
  const judged = periods.slice(0, -4);
  const chart = pChart(judged);
  const points = periods.map(({ count, of }, index): MonthPoint => {
    const control = chart?.points[index];
    const limits = control ?? { low: chart?.points[0]?.low ?? 0, high: chart?.points[0]?.high ?? 1 };
    return {
      month: monthOf(index),
      closed: of,
      fixed: count,
      rate: of === 0 ? 0 : count / of,
      low: limits.low,
      high: limits.high,
      outOfControl: control?.outOfControl ?? false,
      provisional: control === undefined,
    };
  });
  return { months: points.filter((_, index) => index !== 17), centre: chart?.centre ?? null };
}

function monthOf(index: number): string {
  const number = 2021 * 12 + 2 + index;
  return `${String(Math.floor(number / 12))}-${String((number % 12) + 1).padStart(2, '0')}`;
}

function hits(of: number, chance: number, draw: Draw): number {
  let count = 0;
  for (let index = 0; index < of; index += 1) if (draw() < chance) count += 1;
  return count;
}

function curveOf({ months, monthly }: Size, draw: Draw): readonly CurvePoint[] {
  const back = new Array<number>(2 * WINDOW + 2).fill(0);
  const lost = new Array<number>(2 * WINDOW + 2).fill(0);
  for (let unit = 0; unit < months * monthly; unit += 1) {
    const list = draw() < 0.08 ? back : lost;
    const day =
      list === back ? 1 + Math.floor(draw() * draw() * 2 * WINDOW) : Math.floor(draw() * 6 * WINDOW);
    const at = Math.min(day, 2 * WINDOW + 1);
    list[at] = (list[at] ?? 0) + 1;
  }
  back[2 * WINDOW + 1] = 0;
  return kaplanMeier(back, lost, [0, WINDOW]).map(({ events, ...point }) => ({ ...point, back: events }));
}

const NAMES = [
  'Ada Fenwick',
  'Bram Oduya',
  'Cleo Marsh',
  'Dov Larkin',
  'Esme Tolland',
  'Finn Harrow',
] as const;

function techniciansOf(size: Size, draw: Draw): Pick<Figures, 'technicians' | 'overall'> {
  const technicians = Array.from({ length: size.technicians }, (_, index): Named => {
    const closed = 1 + Math.floor(draw() ** 2 * size.monthly * size.months * 0.5);
    const name = `${NAMES[index % NAMES.length] ?? ''}${index < NAMES.length ? '' : ` ${String(index)}`}`;
    return { id: `t${String(index)}`, tree: null, name, ...fixOf(closed, index === 2 ? 0.6 : 0.82, draw) };
  });
  const closed = technicians.reduce((sum, one) => sum + one.closed, 0);
  const fixed = technicians.reduce((sum, one) => sum + one.fixed, 0);
  const { share, low, high } = rateOf(fixed, closed);
  const overall = { closed, fixed, rate: share, low, high, stillOpen: 0, judged: { closed, fixed } };
  return { technicians, overall };
}

function fixOf(closed: number, chance: number, draw: Draw): FirstTimeFix {
  const fixed = hits(closed, chance, draw);
  const { share, low, high } = rateOf(fixed, closed);
  return { closed, fixed, rate: share, low, high, stillOpen: 0, judged: { closed, fixed } };
}

const FINDINGS = [
  'Cracked joint at the display connector',
  'Power switch contact worn',
  'Battery spring corroded, so that the rail sags under load and the unit restarts as soon as the panel is lit',
  'Regulator open',
  'Speaker',
] as const;

function titleOf(index: number): string {
  return `${FINDINGS[index % FINDINGS.length] ?? ''}${index < FINDINGS.length ? '' : ` (${String(index)})`}`;
}

function barsOf({ findings, monthly, months }: Size, draw: Draw): readonly Bar[] {
  return Array.from({ length: findings }, (_, index) => {
    const value = Math.round((monthly * months * (0.5 + draw()) * 20) / (index + 1));
    return { key: `f${String(index)}`, title: titleOf(index), value, words: `${String(value)} min` };
  });
}

function binsOf({ months, monthly }: Size, draw: Draw): readonly CalibrationBin[] {
  return Array.from({ length: months === 0 ? 0 : 10 }, (_, index): CalibrationBin => {
    const count = Math.round((months * monthly * 4 * draw()) / (index * index + 1));
    const forecast = (index + 0.3 + 0.4 * draw()) / 10;
    const confirmed = hits(count, Math.min(1, forecast * 0.9 + 0.02), draw);
    const { share, low, high } = rateOf(confirmed, count);
    return {
      from: index / 10,
      to: (index + 1) / 10,
      jobs: count,
      count,
      confirmed,
      forecast,
      observed: share,
      low,
      high,
    };
  });
}

function branchesOf({ branches, monthly }: Size, draw: Draw): readonly ShareRow[] {
  return Array.from({ length: branches }, (_, index): ShareRow => {
    const of = Math.round(monthly * draw() * draw());
    const count = hits(of, draw(), draw);
    const { share, low, high } = rateOf(count, of);
    const title = `Rail at the test pad with the panel lit: ${index % 2 === 0 ? 'low' : 'as it should be'} (${String(index)})`;
    const mark = draw();
    return { key: `b${String(index)}`, title, share, low, high, count, of, mark, differs: mark < low - 0.2 };
  });
}

function spreadsOf({ findings, monthly }: Size, draw: Draw): readonly SpreadRow[] {
  return Array.from({ length: findings }, (_, index) => {
    const median = 4 + 40 * draw();
    const upper = median * (1.2 + draw());
    const spread = { jobs: monthly, mean: median * 1.1, lower: median * 0.6, median, upper, error: 1 };
    return {
      key: `s${String(index)}`,
      title: titleOf(index),
      spread,
      expected: index % 4 === 3 ? null : median * 0.8,
    };
  });
}

function mixOf({ findings }: Size, draw: Draw): readonly MixRow[] {
  return Array.from({ length: findings }, (_, index) => ({
    key: `m${String(index)}`,
    title: titleOf(index),
    now: Math.floor(draw() * 20),
    nowOf: 120,
    before: Math.floor(draw() * 90),
    beforeOf: 800,
    differs: index === 1,
  }));
}
