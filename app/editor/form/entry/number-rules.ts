import type { NumberRule } from './number-entry.ts';

/** What the tree document takes, field by field. */
export const MINUTES: NumberRule = { least: 0, most: 100_000, unit: 'min' };
export const PRICE: NumberRule = { least: 0, most: 1e9 };
export const WEIGHT: NumberRule = { least: 0, most: 1e12, unit: 'units' };
export const BRANCH_WEIGHT: NumberRule = { ...WEIGHT, optional: true };
export const RELIABILITY: NumberRule = { above: 0, most: 1, percent: true, optional: true };
export const SHARE: NumberRule = { least: 0, most: 1, percent: true, optional: true };
