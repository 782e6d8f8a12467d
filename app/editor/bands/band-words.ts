import type { Tree } from '../../../trees/document/index.ts';
import type {
  Gap,
  Limit,
  LimitFigures,
  Overlap,
  Resorting,
  Results,
  Roc,
  Separation,
} from '../../../trees/limits/index.ts';
import type { Rate } from '../../../trees/statistics/index.ts';
import { percent } from '../../parts/index.ts';
import { limitWords, type LimitUnit } from './limit-text.ts';
import { findingTitle } from './strip.ts';

/** A result’s title, or its id where the title is still blank. */
export function resultTitle(results: Results, result: string): string {
  const title = Object.hasOwn(results, result) ? (results[result]?.title.trim() ?? '') : '';
  return title === '' || title === '…' ? result : title;
}

/** What a limit divides: “Limit between Low and In limits”, “Low ends”, “In limits begins”. */
export function limitTitle(results: Results, { ends, starts }: Limit): string {
  const [below, above] = [ends, starts].map((all) => listed(all.map((one) => resultTitle(results, one))));
  if (below !== '' && above !== '') return `Limit between ${below ?? ''} and ${above ?? ''}`;
  return below !== '' ? `Where ${below ?? ''} ends` : `Where ${above ?? ''} begins`;
}

/** A gap or an overlap in a sentence. */
export function faultWords(results: Results, fault: Gap | Overlap, unit: LimitUnit): string {
  const stretch = stretchWords(fault, unit);
  if (fault.kind === 'gap') return `Gap: no result for a reading ${stretch}.`;
  const [below, above] = [resultTitle(results, fault.below), resultTitle(results, fault.above)];
  return `Overlap: both ${below} and ${above} hold a reading ${stretch}.`;
}

function stretchWords({ from, to }: { from: number; to: number }, unit: LimitUnit): string {
  if (from === -Infinity && to === Infinity) return 'of any value';
  if (from === -Infinity) return `below ${limitWords(to, unit)}`;
  if (to === Infinity) return `from ${limitWords(from, unit)} on`;
  return `from ${limitWords(from, unit)} to ${limitWords(to, unit)}`;
}

/** What other bands would do to the readings, in one sentence. */
export function movedWords(tree: Tree, results: Results, { readings, moved }: Resorting): string {
  const total = moved.reduce((sum, one) => sum + one.readings, 0);
  if (total === 0) return `None of ${readingsWords(readings)} would sort otherwise.`;
  const parts = moved.slice(0, MOST_NAMED).map(({ finding, from, to, readings: count }) => {
    const [left, gained] = [resultTitle(results, from), resultTitle(results, to)];
    return `${String(count)} of ${findingTitle(tree, finding)} from ${left} to ${gained}`;
  });
  const rest = moved.slice(MOST_NAMED).reduce((sum, one) => sum + one.readings, 0);
  const others = rest > 0 ? `; ${String(rest)} of other findings` : '';
  return `${String(total)} of ${readingsWords(readings)} would sort otherwise: ${parts.join('; ')}${others}.`;
}

const MOST_NAMED = 3;

/** Whether more or fewer readings would be where their finding has them. Empty where no finding says anything. */
export function fittingWords({ fitting: { before, after } }: Resorting): string {
  if (before.of === 0 && after.of === 0) return '';
  const now = `${shareWords(before)} now`;
  const place = 'in the band that their finding makes likeliest';
  if (after.count === before.count && after.of === before.of)
    return `As many lie ${place}: ${shareWords(before)}.`;
  const more = after.share > before.share ? 'More' : 'Fewer';
  return `${more} would lie ${place}: ${shareWords(after)}, ${now}.`;
}

function shareWords({ count, of, share }: Rate): string {
  return `${String(count)} of ${String(of)} (${percent(share)})`;
}

/** A share as count and percent with its 95 % interval: “2 of 31, 6 % (2 % to 21 %)”. */
export function rateWords({ count, of, share, low, high }: Rate): string {
  return `${String(count)} of ${String(of)}, ${percent(share)} (${percent(low)} to ${percent(high)})`;
}

/** What a limit gets wrong, one line for each side. */
export function errorLines(
  results: Results,
  { below, above }: Pick<Separation, 'below' | 'above'>,
  { missed, falseAlarms }: LimitFigures,
): readonly { readonly says: string; readonly rate: Rate }[] {
  const [low, high] = [resultTitle(results, below), resultTitle(results, above)];
  return [
    { says: `${low} read though ${high} is expected`, rate: missed },
    { says: `${high} read though ${low} is expected`, rate: falseAlarms },
  ];
}

/** What is still wanting before a limit is suggested. */
export function missingWords(results: Results, separation: Separation): string {
  if (separation.suggestion.kind !== 'too-few') return '';
  const { positives, negatives } = separation.suggestion.missing;
  const sides = [
    { missing: negatives, result: separation.below },
    { missing: positives, result: separation.above },
  ].filter(({ missing }) => missing > 0);
  const wanted = sides.map(
    ({ missing, result }) =>
      `${readingsWords(missing)} of findings that expect ${resultTitle(results, result)}`,
  );
  return `Too few for a suggestion: still wanting are ${listed(wanted)}.`;
}

/** How many readings stand behind a suggestion, and how many say nothing of it. */
export function behindWords(results: Results, separation: Separation): string {
  const count = (side: Separation['positives']): number =>
    side.reduce((sum, { readings }) => sum + readings, 0);
  const { below, above, negatives, positives, either } = separation;
  const sides = [
    `${String(count(negatives))} of findings that expect ${resultTitle(results, below)}`,
    `${String(count(positives))} of findings that expect ${resultTitle(results, above)}`,
  ];
  const left = count(either);
  const out = left > 0 ? `; ${String(left)} left out, whose finding could give either or says nothing` : '';
  return `Readings: ${sides.join(', ')}${out}.`;
}

/** How well the readings part the two bands over all limits. */
export function areaWords(
  results: Results,
  { below, above }: Pick<Separation, 'below' | 'above'>,
  { area, standardError }: Pick<Roc, 'area' | 'standardError'>,
): string {
  const [low, high] = [resultTitle(results, below), resultTitle(results, above)];
  const figures = `area under the curve ${area.toFixed(3)}, standard error ${standardError.toFixed(3)}`;
  return `A reading that should be ${high} lies above one that should be ${low} ${percent(area)} of the time (${figures}).`;
}

export function readingsWords(count: number): string {
  return count === 1 ? '1 reading' : `${String(count)} readings`;
}

/** “A”, “A and B”, “A, B and C”. */
export function listed(words: readonly string[]): string {
  const last = words.at(-1) ?? '';
  return words.length < 2 ? last : `${words.slice(0, -1).join(', ')} and ${last}`;
}
