import type { Finding, Test } from './tree.ts';

/** a(r|f,t): what the authors expect of a test's results under a finding, in the order of the test's results. */
export interface Expectation {
  /** False where the document says nothing and every result is held equally likely. */
  readonly known: boolean;
  readonly shares: readonly number[];
}

/**
 * What `finding` makes `test` give: what its `expects` says; else, of the flow that passes the test and ends in the
 * finding (`passed`, from {@link import('./flow.ts').Flows}.passing), the share that left by each result; else 1/k for
 * each of k results. `expects` shares are taken as written (the checker holds them to sum to 1).
 */
export function expectationOf(
  testId: string,
  test: Test,
  finding: Finding,
  passed: readonly number[] | undefined,
): Expectation {
  const expected = Object.hasOwn(finding.expects, testId) ? finding.expects[testId] : undefined;
  if (expected !== undefined) {
    const shares = Object.keys(test.results).map((result) => shareOf(expected, result));
    return { known: true, shares };
  }
  const total = passed?.reduce((sum, flow) => sum + flow, 0) ?? 0;
  if (passed !== undefined && total > 0) return { known: true, shares: passed.map((flow) => flow / total) };
  const results = Object.keys(test.results);
  return { known: false, shares: results.map(() => 1 / results.length) };
}

function shareOf(expected: Finding['expects'][string], result: string): number {
  if (typeof expected === 'string') return Number(result === expected);
  return Object.hasOwn(expected, result) ? (expected[result] ?? 0) : 0;
}
