import { minutesWords, percent } from '../../parts/format.ts';
import type { Costed, FixCost, IsolateCost, NoCost, Which } from '../reckoner/index.ts';

/** The trees set side by side, as a column is headed. */
export const WHICH_WORDS: Readonly<Record<Which, string>> = {
  now: 'Now',
  before: 'Before this edit',
  published: 'As published',
};

/** Minutes nearer than this are the same. */
const SAME_MINUTES = 0.05;
const SAME_SHARE = 0.0005;

/** How many minutes more or less than another tree takes. */
export function minutesMore(now: number, then: number): string {
  const more = now - then;
  if (Math.abs(more) < SAME_MINUTES) return 'the same';
  return `${minutesWords(Math.abs(more))} ${more > 0 ? 'more' : 'less'} now`;
}

/** How many units in a hundred more or fewer than with another tree. */
export function shareMore(now: number, then: number): string {
  const more = now - then;
  if (Math.abs(more) < SAME_SHARE) return 'the same';
  const inHundred = Number((Math.abs(more) * 100).toFixed(1));
  return `${String(inHundred)} in 100 ${more > 0 ? 'more' : 'fewer'} now`;
}

/** A line of the cost: what it is of a tree, and how the tree as it is now differs from it. */
export interface CostRow {
  readonly name: string;
  readonly about: string;
  readonly figure: (side: SideFigures) => string | null;
  readonly difference: (now: SideFigures, then: SideFigures) => string | null;
}

/** Null where it is not known, or not yet. */
export interface SideFigures {
  readonly isolate: IsolateCost | null;
  readonly fix: FixCost | null;
}

export const COST_ROWS: readonly CostRow[] = [
  row('To the finding', 'Expected minutes until a finding is named', 'isolate', 'minutes'),
  {
    name: 'Tests made',
    about: 'Expected number of tests on the way to it',
    figure: ({ isolate }) => (isolate === null ? null : isolate.tests.toFixed(1)),
    difference: (now, then) =>
      now.isolate === null || then.isolate === null ? null : testsMore(now.isolate.tests, then.isolate.tests),
  },
  shareRow('Right finding', 'Of all units with the symptom', ({ isolate }) => isolate?.right ?? null),
  row('To mended or passed on', 'Expected minutes, remedies, proofs and parts included', 'fix', 'minutes'),
  shareRow('Mended', 'Of all units with the symptom', ({ fix }) => fix?.fixed ?? null),
];

/** What there is of a side's costs as plain figures. */
export function figuresOf(
  isolate: Costed<IsolateCost> | undefined,
  fix: Costed<FixCost> | null | undefined,
): SideFigures {
  return {
    isolate: isolate?.ok === true ? isolate.cost : null,
    fix: fix?.ok === true ? fix.cost : null,
  };
}

/** Why there is no cost, in a sentence. */
export function noCostWords(because: NoCost): string {
  switch (because) {
    case 'errors':
      return 'Errors keep the tree from being walked, so it has no cost.';
    case 'no-path':
      return 'This symptom leaves the order to the planner: there is no path to reckon.';
    case 'no-symptom':
      return 'This tree has no such symptom.';
  }
}

function row(name: string, about: string, goal: 'isolate' | 'fix', key: 'minutes'): CostRow {
  return {
    name,
    about,
    figure: (side) => {
      const cost = side[goal];
      return cost === null ? null : minutesWords(cost[key]);
    },
    difference: (now, then) => {
      const [one, other] = [now[goal], then[goal]];
      return one === null || other === null ? null : minutesMore(one[key], other[key]);
    },
  };
}

function shareRow(name: string, about: string, share: (side: SideFigures) => number | null): CostRow {
  return {
    name,
    about,
    figure: (side) => {
      const found = share(side);
      return found === null ? null : percent(found);
    },
    difference: (now, then) => {
      const [one, other] = [share(now), share(then)];
      return one === null || other === null ? null : shareMore(one, other);
    },
  };
}

function testsMore(now: number, then: number): string {
  const more = now - then;
  if (Math.abs(more) < SAME_MINUTES) return 'the same';
  return `${Math.abs(more).toFixed(1)} ${more > 0 ? 'more' : 'fewer'} now`;
}
