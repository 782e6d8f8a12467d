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
  const results = Object.keys(test.results);
  const expected = Object.hasOwn(finding.expects, testId) ? finding.expects[testId] : undefined;
  if (typeof expected === 'string') {
    return { known: true, shares: results.map((result) => Number(result === expected)) };
  }
  if (expected !== undefined) {
    return {
      known: true,
      shares: results.map((result) => (Object.hasOwn(expected, result) ? (expected[result] ?? 0) : 0)),
    };
  }
  const total = passed?.reduce((sum, flow) => sum + flow, 0) ?? 0;
  if (passed !== undefined && total > 0) return { known: true, shares: passed.map((flow) => flow / total) };
  return { known: false, shares: results.map(() => 1 / results.length) };
}
