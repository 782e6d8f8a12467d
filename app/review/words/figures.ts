import { percent } from '../../parts/index.ts';

/** How the review writes its figures. */

const whole = new Intl.NumberFormat('en-GB');

/** A count, in groups of three. */
export function countWords(count: number): string {
  return whole.format(count);
}

/** A count and what is counted: `1 job`, `1,204 jobs`. */
export function counted(count: number, one: string, many = `${one}s`): string {
  return `${whole.format(count)} ${count === 1 ? one : many}`;
}

/** An interval of shares: `78 to 85 %`. */
export function rangeWords(low: number, high: number): string {
  return `${percent(low).replace(/\u202f%$/u, '')} to ${percent(high)}`;
}

/** A chance that something is no more than chance. */
export function chanceWords(chance: number): string {
  if (chance < 0.001) return '<0.001';
  if (chance > 0.999 && chance < 1) return '>0.999';
  return chance.toFixed(chance < 0.1 ? 3 : 2);
}

/** Minutes as a length of time that one can picture: hours from two of them on. */
export function lengthWords(minutes: number): string {
  const size = Math.abs(minutes);
  if (size < 10) return `${String(Math.round(minutes * 10) / 10)} min`;
  return size < 120
    ? `${whole.format(Math.round(minutes))} min`
    : `${whole.format(Math.round(minutes / 60))} h`;
}

/** Minutes without their unit, for a column that says it. */
export function minuteFigure(minutes: number): string {
  return minutes < 10 ? minutes.toFixed(1) : whole.format(Math.round(minutes));
}
