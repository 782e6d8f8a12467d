import { BandDesk, type BandProps } from '../../../app/editor/bands/band-desk.svelte.ts';
import { LimitEntry } from '../../../app/editor/bands/limit-entry.svelte.ts';
import type { Tree } from '../../../trees/document/index.ts';
import type { RecordedReading, Results } from '../../../trees/limits/index.ts';
import { smallTree } from '../../support/trees.ts';
import { Held } from '../held.svelte.ts';

const accuracy = { percent: 0.5, constant: 0.005 };

/** Readings of one finding, as they were recorded. */
export function readings(finding: string, result: string, values: readonly number[]): RecordedReading[] {
  return values.map((value) => ({ value, reference: null, accuracy, result, finding }));
}

/** Readings of the 5 V test: the one of the open joint is on the wrong side of the limit. */
export const RECORDED = [
  ...readings('converter-low', 'low', [4, 4.1, 4.2, 4.3, 4.4, 4.45, 4.5, 4.5]),
  ...readings('panel-dead', 'good', [4.8, 4.9, 4.95, 5, 5, 5.05, 5.1, 5.2]),
  ...readings('joint-open', 'low', [4.7]),
];

/** What the desk’s author was told. */
export interface Told {
  readonly results: Results;
  readonly what: string;
  readonly joins?: string;
}

/** A desk over the small tree’s 5 V test, or another, that keeps what it is told as its author would. */
export function deskOf(
  test = 'rail-in',
  recorded: readonly RecordedReading[] = RECORDED,
  over: Partial<BandProps> = {},
) {
  const tree = new Held<Tree>(smallTree());
  const told: Told[] = [];
  const testOf = () => {
    const tested = tree.value.tests[test];
    if (tested === undefined) throw new Error(test);
    return tested;
  };
  const published = testOf().results;
  const onchange: BandProps['onchange'] = (results, what, { joins }) => {
    told.push({ results, what, ...(joins !== undefined && { joins }) });
    tree.value = { ...tree.value, tests: { ...tree.value.tests, [test]: { ...testOf(), results } } };
  };
  const props = () => ({ testId: test, readings: recorded, published, readonly: false, onchange, ...over });
  const desk = new BandDesk(() => ({ ...props(), test: testOf(), tree: tree.value }));
  desk.width = 400;
  const field = (result: string, end: 'from' | 'to') =>
    new LimitEntry(
      () => desk,
      () => ({ result, end }),
    );
  return { desk, told, field };
}

/** The bands of results in their order. */
export function bandsOf(results: Results | undefined) {
  return Object.values(results ?? {}).map(({ band }) => band);
}
