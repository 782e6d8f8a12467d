import { percent } from '../../parts/index.ts';
import type { Bar } from './lay-pareto.ts';

export type ParetoUnit = 'jobs' | 'min' | 'price';

export const UNIT_WORDS: Readonly<Record<ParetoUnit, string>> = {
  jobs: 'jobs',
  min: 'minutes',
  price: 'parts’ prices',
};

/** A Pareto in a sentence: its largest three. `bars` the largest first. */
export function paretoSummary(bars: readonly Bar[], unit: ParetoUnit, total: number): string {
  if (total <= 0) return `Share of all ${UNIT_WORDS[unit]}: none`;
  const told = bars.slice(0, 3).map(({ title, value }) => `${title} ${percent(value / total)}`);
  return `Share of all ${UNIT_WORDS[unit]}, ${String(bars.length)} bars, the largest: ${told.join(', ')}`;
}
