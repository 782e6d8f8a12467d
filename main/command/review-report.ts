import type { ReviewNames, ReviewPage } from '../contract/index.ts';
import type { Branch, CurvePoint, Group, Review, ReviewFilter } from '../../trees/review/index.ts';
import { counted, estimate, interval, isTooWide, share, spread, TOO_FEW } from './review-text.ts';
import { reviewTitles, type Titles } from './review-titles.ts';
import { table } from './table.ts';

/** Rows of the comeback-free curve, and of a table that goes on with ever fewer jobs, that are printed. */
const MOST_POINTS = 12;
const MOST_ROWS = 20;

type Lines = readonly string[];

/** A review to be read on a Friday: every figure with its count and interval. */
export function reviewReport(
  file: string,
  filter: ReviewFilter,
  { review, names, invented }: ReviewPage,
): string {
  const titles = reviewTitles(names);
  const head = [...headLines(file, filter, review, names), ...(invented ? [INVENTED] : [])];
  if (review.jobs === 0)
    return [...head, '', 'No closed job is among them: there is nothing to say yet.'].join('\n');
  return [
    ...head,
    ...fixLines(filter, review, titles),
    ...section('By month, with control limits', monthLines(review)),
    ...section('Fixed and not back (Kaplan-Meier, 95 %)', curveLines(review.comebackFree)),
    ...section('Which findings’ units come back', comebackLines(review, titles)),
    ...section('Outcomes', outcomeLines(review)),
    ...section('Where the hours go', hourLines(review, titles)),
    ...section('Branches that differ from what their author expects', branchLines(review.branches, titles)),
    ...section('Percentages shown at the bench', calibrationLines(review)),
    ...section('Findings, newest quarter against before', changeLines(review, titles)),
    ...section('The planner’s advice', plannerLines(review)),
  ].join('\n');
}

const INVENTED = 'Some of these jobs were invented by the demo.';

function section(title: string, lines: Lines): Lines {
  return ['', title, ...lines];
}

function headLines(
  file: string,
  filter: ReviewFilter,
  { asOf, jobs, record }: Review,
  names: ReviewNames,
): Lines {
  const { from, to, tree, board, technician, window } = filter;
  const narrowed = [
    from !== null && `closed from ${from}`,
    to !== null && `closed to ${to}`,
    tree !== null && `tree ${tree}`,
    board !== null && `board ${board}`,
    technician !== null && `technician ${names.technicians[technician] ?? technician}`,
  ].filter((one) => one !== false);
  const days = record.jobs === 0 ? '' : `, closed from ${record.first ?? ''} to ${record.last ?? ''}`;
  return [
    `Review of ${file} as of ${new Date(asOf).toISOString().slice(0, 10)}`,
    `${jobs} closed jobs${narrowed.length === 0 ? '' : ` (${narrowed.join(', ')})`} of ${record.jobs} on record${days}`,
    `A comeback is a unit that is back within ${window} days. Intervals are 95 % unless it says otherwise.`,
  ];
}

function fixLines({ window }: ReviewFilter, review: Review, titles: Titles): Lines {
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

function moreLines(all: readonly unknown[]): Lines {
  return all.length > MOST_ROWS ? [`  ${all.length - MOST_ROWS} more with --json`] : [];
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

function monthLines({ byMonth: months, centre, trend }: Review): Lines {
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
  const way = differs ? (perMonth > 0 ? 'getting better' : 'getting worse') : 'no trend beyond chance';
  const points = `${(100 * perMonth).toFixed(2)} points a month`;
  return [
    `  ${way}: ${points} over ${counted(months, 'month')}, chance ${chance.toPrecision(2)} (Cochran-Armitage)`,
  ];
}

function curveLines(curve: readonly CurvePoint[]): Lines {
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

function comebackLines({ comebacksByFinding: findings }: Review, titles: Titles): Lines {
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

function outcomeLines({ outcomes }: Review): Lines {
  return table(
    outcomes.map(({ outcome, count, of, share: part, ...range }) => [
      `${count} of ${of}`,
      share(part),
      interval(range),
      outcome,
    ]),
    [0, 1],
  );
}

function hourLines({ pareto, toFinding, toProof, minutes }: Review, titles: Titles): Lines {
  const bars = pareto
    .slice(0, MOST_ROWS)
    .map(({ tree, finding, jobs, minutes: spent, parts }) => [
      `${(spent / 60).toFixed(1)} h`,
      counted(jobs, 'job'),
      `parts ${parts.toFixed(2)}`,
      titles.finding({ tree, id: finding }),
    ]);
  const rows = minutes.map(({ tree, symptom, expected, ...took }) => [
    spread(took.toFinding),
    spread(took.toProof),
    expected === null ? '' : `${expected.toFinding.toFixed(1)} and ${expected.toProof.toFixed(1)}`,
    titles.symptom({ tree, id: symptom }),
  ]);
  return [
    ...table(bars, [0, 1, 2]),
    ...moreLines(pareto),
    ' minutes: median (quartiles), mean, jobs',
    `  to the finding ${spread(toFinding)}`,
    `  to the proven repair ${spread(toProof)}`,
    ' by symptom',
    ...table([['to the finding', 'to the proven repair', 'the tree expects (means)', ''], ...rows]),
  ];
}

function branchLines(branches: readonly Branch[], titles: Titles): Lines {
  const tested = branches.filter(({ passed }) => passed > 0);
  const differing = tested.filter(({ differs }) => differs);
  const of = `of ${tested.length} branches that confirmed jobs came by (exact binomial test, Holm’s correction)`;
  if (differing.length === 0) return [`  none ${of}`];
  const rows = differing.map((branch) => [
    `authored ${share(branch.authored)}`,
    `${branch.took} of ${branch.passed} jobs`,
    `now ${share(branch.now)}`,
    branch.low === null || branch.high === null
      ? ''
      : `${interval({ low: branch.low, high: branch.high })} (90 %)`,
    titles.branch(branch),
  ]);
  return [`  ${differing.length} ${of}`, ...table(rows, [0, 1, 2])];
}

function calibrationLines({ calibration }: Review): Lines {
  const { jobs, percentages, brier, reliability, resolution, uncertainty, bins } = calibration;
  if (brier === null) return ['  none was recorded with a confirmed finding yet'];
  const rows = bins.map(({ from, to, count, forecast, observed, ...range }) => [
    `${Math.round(from * 100)} to ${Math.round(to * 100)} %`,
    `${count} shown`,
    `mean ${share(forecast)}`,
    isTooWide(range) ? TOO_FEW : `was it ${share(observed)}`,
    isTooWide(range) ? '' : interval(range),
  ]);
  const parts = [reliability, resolution, uncertainty].map((part) => (part ?? 0).toFixed(4));
  return [
    `  ${percentages} percentages in ${jobs} confirmed jobs; Brier score ${brier.toFixed(4)} = reliability ${parts[0]} - resolution ${parts[1]} + uncertainty ${parts[2]}`,
    ...table(rows, [0, 1]),
  ];
}

function changeLines({ change }: Review, titles: Titles): Lines {
  if (change === null) return ['  too few confirmed jobs on one side'];
  const { since, now, before, findings } = change;
  const differing = findings.filter(({ differs }) => differs);
  const rows = differing.map((one) => [
    `${one.now} of ${now}`,
    `before ${one.before} of ${before}`,
    `chance ${one.corrected.toPrecision(2)}`,
    titles.finding({ tree: one.tree, id: one.finding }),
  ]);
  const said = differing.length === 0 ? 'none' : String(differing.length);
  return [
    `  since ${since}: ${now} confirmed jobs, ${before} before; ${said} of ${findings.length} findings differ by more than chance (Holm’s correction)`,
    ...table(rows, [0, 1]),
  ];
}

function plannerLines({ planner: { taken, notTaken, kinds, saved, wouldSave } }: Review): Lines {
  const jobs = `  taken in ${taken} confirmed jobs, not in ${notTaken}`;
  if (saved === null || wouldSave === null)
    return [jobs, '  no kind of job has enough of both to compare: nothing can be said of what it saves'];
  return [
    `${jobs}; of ${counted(kinds, 'kind')} of job there were enough of both`,
    `  saved where it was taken: ${estimate(saved)}`,
    `  would have saved where it was not: ${estimate(wouldSave)}`,
    '  assumed: jobs of one symptom and finding are alike whether or not advice was taken; as a long job gives more occasions',
    '  to take it than a short one, this may make it look worse than it is',
  ];
}
