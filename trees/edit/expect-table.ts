import { expectationOf, flows, own, type Tree } from '../document/index.ts';
import type { Change } from './change.ts';
import type { DraftDocument, Json } from './json.ts';
import { keysAt } from './acts/keys-at.ts';
import { at, drop, put } from './acts/put.ts';

/** What a finding makes a test give, and who says so. Shares are in the order of the test’s results and sum to one. */
export type ExpectCell =
  | {
      /** The finding’s own `expects`. */
      readonly kind: 'said';
      readonly shares: readonly number[];
      /** The paths lead to the finding only by results that it is said never to give. */
      readonly againstPath: boolean;
    }
  | {
      /** The paths: how the flow that passes the test and ends in the finding splits. */
      readonly kind: 'path';
      readonly shares: readonly number[];
    }
  | { readonly kind: 'unknown' };

/**
 * One cell of the table of findings against tests: a(r|f,t) as the arithmetic takes it. `unknown` where the document says nothing,
 * and where there is no such finding or test.
 */
export function expectCell(tree: Tree, finding: string, test: string): ExpectCell {
  const found = own(tree.findings, finding);
  const asked = own(tree.tests, test);
  if (found === undefined || asked === undefined) return { kind: 'unknown' };
  const passed = flows(tree).passing.get(test)?.get(finding);
  const { known, shares } = expectationOf(test, asked, found, passed);
  if (!known) return { kind: 'unknown' };
  if (!Object.hasOwn(found.expects, test)) return { kind: 'path', shares };
  const isPassed = passed?.some((flow) => flow > 0) ?? false;
  const againstPath = isPassed && passed?.every((flow, place) => flow === 0 || shares[place] === 0) === true;
  return { kind: 'said', shares, againstPath };
}

/** What a cell is set to: a result’s id, shares by result that sum to one, or nothing, so that the paths say it again. */
export type CellValue = string | Readonly<Record<string, number>> | null;

/** The changes that make a finding expect something of a test. Steps and branches stay as they are. */
export function setCell(
  document: DraftDocument,
  finding: string,
  test: string,
  value: CellValue,
): readonly Change[] {
  const path = ['findings', finding, 'expects'];
  if (value !== null)
    return JSON.stringify(at(document, [...path, test])) === JSON.stringify(value)
      ? []
      : put(document, [...path, test], value as Json);
  const isLast = keysAt(document, path).every((key) => key === test);
  return isLast && at(document, [...path, test]) !== undefined
    ? drop(document, path)
    : drop(document, [...path, test]);
}
