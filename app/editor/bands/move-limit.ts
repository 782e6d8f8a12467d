import type { Limit } from '../../../trees/limits/index.ts';
import { roundStep, tidy, type Scale } from './scale.ts';

/** Where a limit may be moved to: not onto its neighbours, which it would otherwise pass. */
export interface Between {
  readonly above: number;
  readonly below: number;
}

/** The neighbours of the limit at `index`. */
export function neighboursOf(limits: readonly Limit[], index: number): Between {
  return { above: limits[index - 1]?.at ?? -Infinity, below: limits[index + 1]?.at ?? Infinity };
}

/** The value that a limit dragged to `place` has: as round as half a pixel allows, and between its neighbours. */
export function draggedTo(scale: Scale, place: number, pixel: number, between: Between): number {
  const value = scale.value(place);
  const step = roundStep(Math.abs(scale.value(place + pixel / 2) - value));
  const rounded = tidy(Math.round(value / step) * step);
  return held(rounded, step, between);
}

/** By how much an arrow key moves a limit: a hundredth of the line, or on a line by decades its second digit. */
export function keyStep(scale: Scale, value: number): number {
  if (scale.kind === 'linear') return lowerStep((scale.high - scale.low) / 100);
  return Number(`1e${String(Math.floor(Math.log10(Math.abs(value) || 1) + 1e-9) - 1)}`);
}

const TIMES: Readonly<Record<string, number>> = {
  ArrowLeft: -1,
  ArrowDown: -1,
  ArrowRight: 1,
  ArrowUp: 1,
  PageDown: -10,
  PageUp: 10,
};

/** Where a key moves a limit; with Shift a tenth as far. Null for a key that moves nothing. */
export function keyedTo(
  scale: Scale,
  value: number,
  { key, shiftKey }: Pick<KeyboardEvent, 'key' | 'shiftKey'>,
  between: Between,
): number | null {
  const times = TIMES[key];
  if (times === undefined) return null;
  // Downwards from 1000 the second digit is that of 999.
  const from = times < 0 && scale.kind === 'decades' ? value * (1 - 1e-6) : value;
  const step = keyStep(scale, from) * (shiftKey ? 0.1 : 1);
  return held(tidy(value + times * step), step, between);
}

/** Kept a step off its neighbours, or halfway between them where there is no room for that. */
function held(value: number, step: number, { above, below }: Between): number {
  const [least, most] = [tidy(above + step), tidy(below - step)];
  if (least > most) return tidy((above + below) / 2);
  return Math.min(most, Math.max(least, value));
}

function lowerStep(most: number): number {
  return Number(`1e${String(Math.floor(Math.log10(most) + 1e-9))}`);
}
