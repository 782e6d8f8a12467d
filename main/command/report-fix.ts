import type { CurvePoint, Group, Review, ReviewFilter } from '../../trees/review/index.ts';
import {
  counted,
  interval,
  isTooWide,
  MOST_ROWS,
  moreLines,
  section,
  share,
  TOO_FEW,
  type Lines,
} from './review-text.ts';
import type { Titles } from './review-titles.ts';
import { table } from './table.ts';

/** Rows of the comeback-free curve that are printed. */
const MOST_POINTS = 12;

export function fixLines({ window }: ReviewFilter, review: Review, titles: Titles): Lines {
  const { firstTimeFix: all, atWindow } = review;
  const open = all.stillOpen === 0 ? [] : [`  ${all.stillOpen} of them may still come back`];
  const free =
    atWindow === null
      ? `  not back after ${window} days: not known yet`
      : `  not back after ${window} days: ${share(atWindow.survival)}, ${interval(atWindow)}, ${atWindow.atRisk} units at risk`;
  return [
    ...section('Fixed the first time', groupTable([{ ...all, name: 'all' }])),
    ...open,
    free,
    ...groups('by tree', review.byTree, titles.tree),
    ...groups('by symptom', review.bySymptom, titles.symptom),
    ...groups('by finding', review.byFinding, titles.finding),
    ...groups('by board', review.byBoard, titles.board),
    ...groups(
      'by technician (by name: small numbers differ by chance alone; to be judged by the jobs whose window has passed)',
      review.byTechnician,
      (group) => `${titles.technician(group)} (${judgedWords(group)})`,
    ),
    ...likeLines(review, titles),
  ];
}

function likeLines({ technicianSymptoms: pairs }: Review, titles: Titles): Lines {
  const differing = pairs.filter(({ differs }) => differs);
  const rows = differing.map((one) => [
    `${one.fixed} of ${one.closed}`,
    `as all ${one.expected.toFixed(1)}`,
    `chance ${one.corrected.toPrecision(2)}`,
    `${titles.technician({ tree: null, id: one.technician })}, ${titles.symptom({ tree: one.tree, id: one.symptom })}`,
  ]);
  const said = differing.length === 0 ? 'none' : String(differing.length);
  return [
    ' technicians against all with the same symptom, of jobs whose window has passed',
    `  ${said} of ${counted(pairs.length, 'pair')} differ${differing.length === 1 ? 's' : ''} by more than chance (exact test, Holm’s correction)`,
    ...table(rows, [0, 1, 2]),
  ];
}

function judgedWords({ judged: { closed, fixed } }: Group): string {
  return closed === 0 ? 'none to be judged yet' : `judged: ${fixed} of ${closed}`;
}

function groups(title: string, all: readonly Group[], nameOf: (group: Group) => string): Lines {
  const named = all.map((group) => ({ ...group, name: nameOf(group) }));
  return [` ${title}`, ...groupTable(named.slice(0, MOST_ROWS)), ...moreLines(all)];
}

function groupTable(
  rows: readonly (Pick<Group, 'rate' | 'low' | 'high' | 'fixed' | 'closed'> & { readonly name: string })[],
): Lines {
  return table(
    rows.map(({ name, rate, fixed, closed, ...range }) => [
      `${fixed} of ${closed}`,
      isTooWide(range) ? '' : share(rate),
      isTooWide(range) ? TOO_FEW : interval(range),
      name,
    ]),
    [0, 1],
  );
}

export function monthLines({ byMonth: months, centre, trend }: Review): Lines {
  const line = centre === null ? 'no month can be judged yet' : `centre line ${share(centre)}`;
  const rows = months.map(({ month, fixed, closed, rate, provisional, outOfControl, ...limits }) => [
    month,
    `${fixed} of ${closed}`,
    share(rate),
    centre === null ? '' : interval(limits),
    outOfControl ? 'OUT OF CONTROL' : provisional ? 'may still change' : '',
  ]);
  const open = months.some(({ provisional }) => provisional)
    ? ['  where it may still change, each unit that comes back will lower it']
    : [];
  return [`  ${line}`, ...trendLines(trend), ...table(rows, [1, 2]), ...open];
}

function trendLines(trend: Review['trend']): Lines {
  if (trend === null) return [];
  const { months, perMonth, chance, differs } = trend;
  const way = differs
    ? perMonth > 0
      ? 'getting better'
      : 'getting worse'
    : 'no trend beyond chance (called one below 0.0027)';
  const points = `${(100 * perMonth).toFixed(2)} points a month`;
  return [
    `  ${way}: ${points} over ${counted(months, 'month')}, chance ${chance.toPrecision(2)} (Cochran-Armitage)`,
  ];
}

export function curveLines(curve: readonly CurvePoint[]): Lines {
  if (curve.length === 0) return ['  nothing was fixed yet'];
  const step = Math.max(1, Math.ceil((curve.length - 1) / (MOST_POINTS - 1)));
  const shown = curve.filter((_, at) => at % step === 0 || at === curve.length - 1);
  const rows = shown.map(({ days, atRisk, survival, ...range }) => [
    `${days} days`,
    share(survival),
    isTooWide(range) ? TOO_FEW : interval(range),
    `${atRisk} at risk`,
  ]);
  const left = curve.length - shown.length;
  return [...table(rows, [0, 1, 3]), ...(left > 0 ? [`  ${left} more points with --json`] : [])];
}

export function comebackLines({ comebacksByFinding: findings }: Review, titles: Titles): Lines {
  const differing = findings.filter(({ differs }) => differs);
  const rows = differing.map((one) => [
    `${one.back} of ${one.fixed}`,
    `as all ${one.expected.toFixed(1)}`,
    `chance ${one.corrected.toPrecision(2)}`,
    titles.finding({ tree: one.tree, id: one.finding }),
  ]);
  const said = differing.length === 0 ? 'none' : String(differing.length);
  return [
    `  ${said} of ${counted(findings.length, 'finding')} differ${differing.length === 1 ? 's' : ''} from all by more than chance (exact log-rank test, Holm’s correction)`,
    ...table(rows, [0, 1, 2]),
  ];
}
