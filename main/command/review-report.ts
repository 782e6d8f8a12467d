import type { ReviewNames, ReviewPage } from '../contract/index.ts';
import type { Review, ReviewFilter } from '../../trees/review/index.ts';
import { comebackLines, curveLines, fixLines, monthLines } from './report-fix.ts';
import { branchLines, calibrationLines, changeLines, plannerLines, triedLines } from './report-trees.ts';
import {
  counted,
  interval,
  moreLines,
  MOST_ROWS,
  section,
  share,
  spread,
  type Lines,
} from './review-text.ts';
import { reviewTitles, type Titles } from './review-titles.ts';
import { table } from './table.ts';

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
    ...section('Tried first, and what it was', triedLines(review, titles)),
    ...section('Findings, newest three months against before', changeLines(review, titles)),
    ...section('The planner’s advice', plannerLines(review)),
  ].join('\n');
}

const INVENTED = 'Some of these jobs were invented by the demo.';

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
