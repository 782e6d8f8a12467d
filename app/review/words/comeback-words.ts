import type { CurvePoint, FindingComebacks, Review } from '../../../trees/review/index.ts';
import { ENOUGH } from './enough.ts';
import { chanceWords, counted, countWords, expectedWords } from './figures.ts';

/** Why nothing can be said of the units after the window's days. */
export function comebackWords({ outcomes, comebackFree }: Review, window: number): string {
  const fixed = outcomes.find(({ outcome }) => outcome === 'fixed')?.count ?? 0;
  if (fixed === 0) return 'No unit was closed as fixed here, so that none can have come back.';
  const last = comebackFree.at(-1)?.days ?? 0;
  return `None of the ${counted(fixed, 'fixed unit')} has been out for ${counted(window, 'day')} yet. What there is reaches to day ${String(last)}.`;
}

/** How far what is said of the window's end can be trusted. */
export function sightWords({ atRisk }: CurvePoint, window: number): string {
  const sight = `${counted(atRisk, 'unit')} ${atRisk === 1 ? 'was' : 'were'} still in sight on day ${String(window)}`;
  return atRisk >= ENOUGH.inSight
    ? `${sight}.`
    : `Only ${sight}: from ${String(ENOUGH.inSight)} on the figure starts to mean something.`;
}

/** Whether some finding's units come back more or less often than all; `title` names a finding. */
export function findingsBackWords(
  { comebacksByFinding: findings }: Review,
  window: number,
  title: (finding: FindingComebacks) => string,
): string {
  const back = findings.reduce((sum, one) => sum + one.back, 0);
  const differ = findings.filter(({ differs }) => differs);
  if (differ.length > 0) {
    const told = differ.slice(0, TOLD).map((one) => backWords(one, title(one)));
    const others = differ.length > TOLD ? `; and ${counted(differ.length - TOLD, 'other')}` : '';
    return `More than chance, of ${counted(findings.length, 'finding')} looked at together: ${told.join('; ')}${others}.`;
  }
  if (back < ENOUGH.back)
    return `Too few to say: ${back === 0 ? 'no unit is' : `only ${counted(back, 'unit')} ${back === 1 ? 'is' : 'are'}`} back within ${counted(window, 'day')}; from ${String(ENOUGH.back)} on this starts to mean something.`;
  return `None by more than chance: ${counted(back, 'unit')} back within ${counted(window, 'day')}, ${counted(findings.length, 'finding')} looked at together.`;
}

/** So many findings are told one by one. */
const TOLD = 3;

function backWords({ back, fixed, expected }: FindingComebacks, title: string): string {
  const way = back > expected ? 'come back more often' : 'come back less often';
  return `units with “${title}” ${way}, ${countWords(back)} of ${countWords(fixed)} where ${expectedWords(expected)} would be as usual`;
}

/** How a finding's units come back against all, in a word with its chance. */
export function backChance({ back, expected, corrected, differs }: FindingComebacks): string {
  const chance = chanceWords(corrected);
  if (!differs) return chance;
  return `${chance} ${back > expected ? 'more often' : 'less often'}`;
}
