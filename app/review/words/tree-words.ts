import type { Calibration, CalibrationBin, MixChange, Review } from '../../../trees/review/index.ts';
import { binomialTest, holm } from '../../../trees/statistics/index.ts';
import { percent } from '../../parts/index.ts';
import { ENOUGH } from './enough.ts';
import { counted, countWords } from './figures.ts';
import { dayTitle } from './days.ts';

/** Whether branches differ from what their author expected. */
export function branchesWords({ branches }: Review): string {
  if (branches.length === 0) return 'No tree has a branch to compare yet.';
  const came = branches.filter(({ passed }) => passed > 0).length;
  if (came === 0) return 'No confirmed job here has passed a branch of the trees as they are now.';
  const differ = branches.filter(({ differs }) => differs).length;
  const of = `of ${counted(came, 'branch', 'branches')} that confirmed jobs came by`;
  if (differ === 0) {
    const none = `None ${of} differs from what its author expected by more than chance`;
    return isTold(branches)
      ? `${none}.`
      : `${none}, but no step was passed by ${String(ENOUGH.passed)} confirmed jobs, from which on that starts to mean something.`;
  }
  return `${countWords(differ)} ${of} differ${differ === 1 ? 's' : ''} from what ${differ === 1 ? 'its' : 'their'} author expected by more than chance.`;
}

/** What that comes to, in a few words. */
export function branchesGist({ branches }: Review): string {
  const count = branches.filter(({ differs }) => differs).length;
  if (count === 0) return isTold(branches) ? 'no branch differs' : 'too few to say';
  return count === 1 ? '1 branch differs' : `${String(count)} branches differ`;
}

/** Whether some step was passed often enough for its branches to be told from chance. */
function isTold(branches: Review['branches']): boolean {
  return branches.some(({ passed }) => passed >= ENOUGH.passed);
}

/** What is missing for the calibration to mean something; null where nothing is. */
export function calibrationMissing({ jobs, percentages }: Calibration, closed: number): string | null {
  if (jobs === 0) {
    return closed === 0
      ? 'No job is closed here yet.'
      : `None of the ${counted(closed, 'closed job')} has percentages on record: they are kept since the version that first showed this page, when a first remedy is taken in hand.`;
  }
  if (percentages < ENOUGH.percentages)
    return `Too few to say: there are ${counted(percentages, 'percentage')} of ${counted(jobs, 'job')}; from ${String(ENOUGH.percentages)} on the score starts to mean something.`;
  if (jobs < ENOUGH.calibrated)
    return `Too few to say how far what was shown is from what came true: chance alone makes the reliability part larger than it is, and from some ${String(ENOUGH.calibrated)} jobs on it starts to mean something; there are ${countWords(jobs)}. The score itself can be taken as it is.`;
  return null;
}

/** The tenths in which what was shown came true more or less often than was said, by more than chance. */
export interface Miscalled {
  readonly tooSure: readonly CalibrationBin[];
  readonly tooCautious: readonly CalibrationBin[];
}

/**
 * Each tenth by the exact binomial test against the mean of what was shown, corrected by Holm for as many as there are. Unlike
 * percentages in a tenth, and several of one job of which one at most comes true, make the counts vary less than the test reckons
 * with, so that it errs on the side of saying nothing.
 */
export function miscalled({ bins }: Calibration): Miscalled {
  const corrected = holm(
    bins.map(({ confirmed, count, forecast }) => binomialTest(confirmed, count, forecast)),
  );
  const differ = bins.filter((_, place) => (corrected[place] ?? 1) < SIGNIFICANT);
  return {
    tooSure: differ.filter(({ observed, forecast }) => observed < forecast),
    tooCautious: differ.filter(({ observed, forecast }) => observed > forecast),
  };
}

const SIGNIFICANT = 0.05;

/** Whether the bench is too sure or not sure enough of what it shows, in a sentence. */
export function calibrationWords(calibration: Calibration): string {
  const { tooSure, tooCautious } = miscalled(calibration);
  const told = [
    ...(tooSure.length === 0 ? [] : [`Less often than was said came true ${binsWords(tooSure)}`]),
    ...(tooCautious.length === 0 ? [] : [`more often than was said came true ${binsWords(tooCautious)}`]),
  ];
  if (told.length === 0)
    return 'No tenth of the percentages came true more or less often than was said by more than chance.';
  const words = told.join('; ');
  return `${words.charAt(0).toUpperCase()}${words.slice(1)}: more than chance, all tenths looked at together.`;
}

function binsWords(bins: readonly CalibrationBin[]): string {
  return bins
    .toSorted((a, b) => b.forecast - a.forecast)
    .map(({ forecast, observed }) => `${percent(forecast)} (${percent(observed)} did)`)
    .join(', ');
}

/** That in a few words; null where there are too few percentages to say, or none is off. */
export function calibrationGist(review: Review): string | null {
  if (calibrationMissing(review.calibration, review.jobs) !== null) return null;
  const { tooSure, tooCautious } = miscalled(review.calibration);
  const isHigh = ({ forecast }: CalibrationBin): boolean => forecast >= 0.5;
  if (tooSure.some(isHigh)) return 'the bench is too sure';
  return tooCautious.some(isHigh) ? 'the bench is not sure enough' : null;
}

/** Whether the newest quarter's mix of findings is another than before. */
export function mixWords(change: MixChange | null): string {
  if (change === null)
    return 'Whether the mix of findings changes cannot be said yet: that takes confirmed jobs both in the newest three months and before them.';
  const { since, now, before, findings } = change;
  const differ = findings.filter(({ differs }) => differs).length;
  const base = `${counted(now, 'confirmed job')} since ${dayTitle(since)} against ${countWords(before)} before`;
  if (differ === 0)
    return `${base}: no finding has become more or less frequent by more than chance, ${counted(findings.length, 'finding')} looked at together.`;
  return `${base}: ${counted(differ, 'finding')} ${differ === 1 ? 'has' : 'have'} become more or less frequent by more than chance, ${counted(findings.length, 'finding')} looked at together.`;
}
