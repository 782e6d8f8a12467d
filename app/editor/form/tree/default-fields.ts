import type { Tree } from '../../../../trees/document/index.ts';
import type { NumberRule } from '../entry/number-entry.ts';

/** One of the tree’s defaults: what it is, what holds when it is left empty, and what it means. */
export interface DefaultField {
  readonly key: keyof Tree['defaults'];
  readonly label: string;
  readonly rule: NumberRule;
  readonly otherwise: number;
  readonly hint: string;
}

const SHARE = { percent: true, optional: true } as const;

/** The tree’s defaults in plain words. */
export const DEFAULT_FIELDS: readonly DefaultField[] = [
  {
    key: 'strength',
    label: 'Strength of the authors’ weights',
    rule: { above: 0, most: 1e12, optional: true, unit: 'jobs' },
    otherwise: 10,
    hint: 'They count for as many jobs as this; with more closed jobs, what the shop has seen counts for more. Empty: 10.',
  },
  {
    key: 'reliability',
    label: 'Reliability of a test',
    rule: { ...SHARE, above: 0, most: 1 },
    otherwise: 0.97,
    hint: 'How often a test shows what it should, where it does not say so itself. Empty: 97 %.',
  },
  {
    key: 'unlisted',
    label: 'Chance of something not in this tree',
    rule: { ...SHARE, least: 0, below: 1 },
    otherwise: 0.02,
    hint: 'How often the cause is none of the findings below. Empty: 2 %.',
  },
  {
    key: 'fixRate',
    label: 'Fix rate of a remedy',
    rule: { ...SHARE, above: 0, most: 1 },
    otherwise: 0.95,
    hint: 'How often the right remedy mends the unit, until the shop has seen it done. Empty: 95 %.',
  },
  {
    key: 'escalate',
    label: 'Passing a unit on',
    rule: { least: 0, most: 100_000, optional: true, unit: 'min' },
    otherwise: 60,
    hint: 'What it costs to give a unit to somebody else unmended. Empty: 60 min.',
  },
  {
    key: 'settled',
    label: 'Taken as found at',
    rule: { ...SHARE, above: 0, most: 1 },
    otherwise: 0.95,
    hint: 'How probable a finding must be before no more tests are made for it. Empty: 95 %.',
  },
];
