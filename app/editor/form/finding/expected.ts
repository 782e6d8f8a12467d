import {
  expectationOf,
  own,
  type Expectation,
  type Finding,
  type Flows,
  type Tree,
} from '../../../../trees/document/index.ts';
import { put, putOrDrop, type Change, type DraftDocument } from '../../../../trees/edit/index.ts';

/** How it is said what a finding makes a test give: not at all, always one result, or shares. */
export type Saying = 'paths' | 'shares' | `result:${string}`;

/** How a finding says it of a test. */
export function sayingOf(finding: Finding, test: string): Saying {
  const expected = own(finding.expects, test);
  if (expected === undefined) return 'paths';
  return typeof expected === 'string' ? `result:${expected}` : 'shares';
}

/** The tests of which a finding says something, or the paths do for it, in the tree’s order. */
export function testsKnown(tree: Tree, { passing }: Flows, id: string): readonly string[] {
  const finding = own(tree.findings, id);
  return Object.keys(tree.tests).filter(
    (test) =>
      own(finding?.expects ?? {}, test) !== undefined ||
      (passing.get(test)?.get(id) ?? []).some((flow) => flow > 0),
  );
}

/** What the paths alone say that a finding makes a test give. */
export function byPaths(tree: Tree, { passing }: Flows, finding: string, test: string): Expectation {
  const known = own(tree.tests, test);
  const says = own(tree.findings, finding);
  if (known === undefined || says === undefined) return { known: false, shares: [] };
  return expectationOf(test, known, { ...says, expects: {} }, passing.get(test)?.get(finding));
}

/** The changes that have a finding say in another way what it makes a test give. Shares begin as what was held till then. */
export function changesToSaying(
  document: DraftDocument,
  tree: Tree,
  flows: Flows,
  place: { readonly finding: string; readonly test: string },
  saying: Saying,
): readonly Change[] {
  const path = ['findings', place.finding, 'expects', place.test];
  if (saying === 'paths') return putOrDrop(document, path, undefined);
  if (saying !== 'shares') return put(document, path, saying.slice('result:'.length));
  const test = own(tree.tests, place.test);
  const finding = own(tree.findings, place.finding);
  if (test === undefined || finding === undefined) return [];
  const passed = flows.passing.get(place.test)?.get(place.finding);
  const { shares } = expectationOf(place.test, test, finding, passed);
  const whole = wholePerCents(shares);
  const value = Object.fromEntries(
    Object.keys(test.results).flatMap((result, index) => {
      const share = whole[index] ?? 0;
      return share > 0 ? [[result, share]] : [];
    }),
  );
  return put(document, path, value);
}

/** Shares that sum to 1 rounded to whole per cents that still do: those cut off most get what is left. */
export function wholePerCents(shares: readonly number[]): readonly number[] {
  const floors = shares.map((share) => Math.floor(share * 100 + 1e-9));
  const left = 100 - floors.reduce((sum, floor) => sum + floor, 0);
  const cutOff = shares
    .map((share, index) => ({ index, rest: share * 100 - (floors[index] ?? 0) }))
    .toSorted((a, b) => b.rest - a.rest)
    .slice(0, left);
  const raised = new Set(cutOff.map(({ index }) => index));
  return floors.map((floor, index) => (floor + Number(raised.has(index))) / 100);
}

/** What shares come to together; they are held to make up the whole. */
export function totalOf(expected: Finding['expects'][string] | undefined): number | null {
  if (expected === undefined || typeof expected === 'string') return null;
  return Object.values(expected).reduce((sum, share) => sum + share, 0);
}
