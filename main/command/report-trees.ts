import type { Branch, Review } from '../../trees/review/index.ts';
import {
  counted,
  estimate,
  interval,
  isTooWide,
  MOST_ROWS,
  moreLines,
  share,
  TOO_FEW,
  type Lines,
} from './review-text.ts';
import type { Titles } from './review-titles.ts';
import { table } from './table.ts';

export function branchLines(branches: readonly Branch[], titles: Titles): Lines {
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

export function calibrationLines({ calibration }: Review): Lines {
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

export function triedLines({ triedFirst }: Review, titles: Titles): Lines {
  if (triedFirst.length === 0) return ['  no remedy was proved yet'];
  const rows = triedFirst
    .slice(0, MOST_ROWS)
    .map(({ tree, finding, count, of, share: part, instead, ...range }) => [
      `right in ${count} of ${of}`,
      isTooWide(range) ? '' : share(part),
      isTooWide(range) ? TOO_FEW : interval(range),
      titles.finding({ tree, id: finding }),
      instead[0] === undefined
        ? ''
        : `mostly ${titles.finding({ tree, id: instead[0].finding })} (${instead[0].jobs})`,
    ]);
  return [...table(rows, [0, 1]), ...moreLines(triedFirst)];
}

export function changeLines({ change }: Review, titles: Titles): Lines {
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

export function plannerLines({ planner: { taken, notTaken, kinds, saved, wouldSave } }: Review): Lines {
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
