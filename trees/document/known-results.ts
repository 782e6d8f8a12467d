import type { Course } from './course.ts';
import { expectationOf } from './expectation.ts';
import type { Recall } from './memory.ts';
import { keptTables, passingTo } from './passing.ts';
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

/** Gives {@link KnownResults} by finding, of those that the tree has. */
export function knownResults(
  tree: Tree,
  course: Course,
  ranges: readonly Range[],
  recall: Recall,
): (finding: string) => KnownResults {
  const tables = keptTables(course, Object.keys(tree.findings).length);
  return (id) => {
    const finding = tree.findings[id];
    if (finding === undefined || tables === null)
      return knownOf(tree, ranges, finding, passingTo(course, id));
    return recall('known-results', finding, [id, course], () =>
      knownOf(tree, ranges, finding, tables(id).slice()),
    );
  };
}

/** Turns the flows that end in a finding into shares, in place, and puts what the finding expects over them. */
function knownOf(
  tree: Tree,
  ranges: readonly Range[],
  finding: Finding | undefined,
  shares: Float64Array,
): KnownResults {
  const isKnown = new Uint8Array(ranges.length);
  const against: Against[] = [];
  for (let place = 0; place < ranges.length; place += 1) {
    const { test: testId = '', start = 0, end = 0 } = ranges[place] ?? {};
    const isFlowing = toShares(shares, start, end);
    const test = tree.tests[testId];
    if (finding !== undefined && test !== undefined && Object.hasOwn(finding.expects, testId)) {
      const expected = expectationOf(testId, test, finding, undefined).shares;
      for (let slot = start; slot < end; slot += 1) {
        const share = shares[slot] ?? 0;
        if (isFlowing && share > 0 && expected[slot - start] === 0)
          against.push({ test: testId, slot, share });
      }
      shares.set(expected, start);
      isKnown[place] = 1;
    } else if (isFlowing) isKnown[place] = 1;
  }
  return { shares, isKnown, against };
}

/** Whether there was any flow to be shared. */
function toShares(flow: Float64Array, start: number, end: number): boolean {
  let total = 0;
  for (let slot = start; slot < end; slot += 1) total += flow[slot] ?? 0;
  if (total === 0) return false;
  for (let slot = start; slot < end; slot += 1) flow[slot] = (flow[slot] ?? 0) / total;
  return true;
}
