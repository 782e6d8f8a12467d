import type { Course } from './course.ts';
import { expectationOf } from './expectation.ts';
import type { Recall } from './memory.ts';
import { passingTo } from './passing.ts';
import { passingShares, toShares, type PassingShares } from './passing-shares.ts';
import type { Finding, Tree } from './tree.ts';

/** A test and where its results are in {@link Course.slots}' numbering. */
export interface Range {
  readonly test: string;
  readonly start: number;
  readonly end: number;
}

/** What a finding is expected to make the tests give: a(r|f,t) by slot, and by test whether anything is known of it. */
export interface KnownResults {
  readonly shares: Float64Array;
  readonly isKnown: Uint8Array;
  /** Results by which the paths lead to the finding though its `expects` rules them out. */
  readonly against: readonly Against[];
}

/** Of a finding's units that the paths send past a test, the share that leaves by a result its `expects` rules out. */
export interface Against {
  readonly test: string;
  readonly slot: number;
  readonly share: number;
}

/** Gives {@link KnownResults} by finding, of those that the tree has. Its tables are not to be written to. */
export function knownResults(
  tree: Tree,
  course: Course,
  ranges: readonly Range[],
  recall: Recall,
): (finding: string) => KnownResults {
  const all = passingShares(course, Object.keys(tree.findings).length);
  if (all === null) {
    return (id) => {
      const flow = passingTo(course, id);
      const isKnown = Uint8Array.from(ranges, ({ start, end }) => Number(toShares(flow, start, end)));
      return withExpected(tree, ranges, tree.findings[id], { shares: flow, isKnown });
    };
  }
  const flowOf = sharesByFinding(all);
  return (id) => {
    const finding = tree.findings[id];
    if (finding === undefined) return { ...flowOf(id), against: [] };
    return recall('known-results', finding, [id, course], () => {
      const { shares, isKnown } = flowOf(id);
      if (Object.keys(finding.expects).length === 0) return { shares, isKnown, against: [] };
      return withExpected(tree, ranges, finding, { shares: shares.slice(), isKnown: isKnown.slice() });
    });
  };
}

type Flowing = Pick<KnownResults, 'shares' | 'isKnown'>;

/** What the flow says of each finding: parts of the tables of all. */
function sharesByFinding({
  shares,
  isFlowing,
  findings,
  slots,
  tests,
}: PassingShares): (finding: string) => Flowing {
  const nothing = { shares: new Float64Array(slots), isKnown: new Uint8Array(tests) };
  return (finding) => {
    const row = findings.get(finding);
    if (row === undefined) return nothing;
    return {
      shares: shares.subarray(row * slots, row * slots + slots),
      isKnown: isFlowing.subarray(row * tests, row * tests + tests),
    };
  };
}

/** Puts what a finding expects over the shares that the flow says, in place. */
function withExpected(
  tree: Tree,
  ranges: readonly Range[],
  finding: Finding | undefined,
  { shares, isKnown }: Flowing,
): KnownResults {
  const against: Against[] = [];
  for (let place = 0; place < ranges.length; place += 1) {
    const { test: testId = '', start = 0, end = 0 } = ranges[place] ?? {};
    const test = tree.tests[testId];
    if (finding === undefined || test === undefined || !Object.hasOwn(finding.expects, testId)) continue;
    const expected = expectationOf(testId, test, finding, undefined).shares;
    for (let slot = start; slot < end; slot += 1) {
      const share = shares[slot] ?? 0;
      if (isKnown[place] === 1 && share > 0 && expected[slot - start] === 0)
        against.push({ test: testId, slot, share });
    }
    shares.set(expected, start);
    isKnown[place] = 1;
  }
  return { shares, isKnown, against };
}
