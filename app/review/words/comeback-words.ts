import type { CurvePoint, Review } from '../../../trees/review/index.ts';
import { ENOUGH } from './enough.ts';
import { counted } from './figures.ts';

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
