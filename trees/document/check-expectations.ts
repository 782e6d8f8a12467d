import type { Course } from './course.ts';
import { expectationOf } from './expectation.ts';
import { arrivals, passingTo } from './flow.ts';
import { quote, warningAt, type Problem } from './problem.ts';
import type { Tree } from './tree.ts';

/** What a finding is known to expect of each test (a(r|f,t) by test id); tests of which nothing is known are left out. */
type Known = ReadonlyMap<string, readonly number[]>;

/**
 * Findings that no test tells apart, and results that no finding expects. For trees without errors; `reached` are
 * the findings that some path leads to. Takes one finding at a time, as the table of all of them can be very large.
 */
export function warnOfExpectations(
  tree: Tree,
  course: Course,
  reached: ReadonlySet<string>,
): readonly Problem[] {
  const { through } = arrivals(course, Object.keys(tree.symptoms));
  const alike = new Map<string, string[]>();
  const tally = new Map(
    Object.entries(tree.tests).map(([id, { results }]) => [
      id,
      { known: 0, shares: Object.keys(results).map(() => 0) },
    ]),
  );
  for (const finding of Object.keys(tree.findings)) {
    const known = knownOf(tree, finding, passingTo(tree, course, through, finding));
    for (const [test, shares] of known) addTo(tally.get(test), shares);
    if (!reached.has(finding)) continue;
    const key = likeness(known);
    alike.set(key, [...(alike.get(key) ?? []), finding]);
  }
  return [...[...alike.values()].flatMap(alikeProblem), ...unexpected(tree, tally)];
}

function knownOf(tree: Tree, findingId: string, passing: Known): Known {
  const finding = tree.findings[findingId];
  const known = new Map<string, readonly number[]>();
  if (finding === undefined) return known;
  for (const testId of new Set([...passing.keys(), ...Object.keys(finding.expects)])) {
    const test = tree.tests[testId];
    if (test === undefined) continue;
    const expectation = expectationOf(testId, test, finding, passing.get(testId));
    if (expectation.known) known.set(testId, expectation.shares);
  }
  return known;
}

interface Tally {
  known: number;
  readonly shares: number[];
}

function addTo(tally: Tally | undefined, shares: readonly number[]): void {
  if (tally === undefined) return;
  tally.known += 1;
  shares.forEach((share, place) => {
    tally.shares[place] = (tally.shares[place] ?? 0) + share;
  });
}

/**
 * The same text for findings that expect the same of every test. Shares are compared to nine places, since flows are
 * sums; an even split is what is taken where nothing is known, so the two are the same.
 */
function likeness(known: Known): string {
  return [...known]
    .map(([test, shares]) => [test, shares.map((share) => Math.round(share * 1e9))] as const)
    .filter(([, shares]) => shares.some((share) => share !== shares[0]))
    .map(([test, shares]) => `${test}:${shares.join()}`)
    .sort()
    .join(' ');
}

function alikeProblem(findings: readonly string[]): readonly Problem[] {
  if (findings.length < 2) return [];
  const message = `No test tells these findings apart: ${findings.slice(0, 20).map(quote).join(', ')}${findings.length > 20 ? ' …' : ''}.`;
  return [
    warningAt(
      ['findings', findings[0] ?? ''],
      'findings-alike',
      message,
      'Add a test that they give different results, or say in “expects” how they differ.',
    ),
  ];
}

function unexpected(tree: Tree, tally: ReadonlyMap<string, Tally>): readonly Problem[] {
  const findings = Object.keys(tree.findings).length;
  return [...tally].flatMap(([test, { known, shares }]) => {
    // A finding of which nothing is known may give any result.
    if (findings === 0 || known < findings) return [];
    return Object.keys(tree.tests[test]?.results ?? {})
      .filter((_, place) => shares[place] === 0)
      .map((result) => {
        const message = `No finding expects the result ${quote(result)} of ${quote(test)}.`;
        return warningAt(
          ['tests', test, 'results', result],
          'result-unexpected',
          message,
          'Send its branch to a finding with some weight, or expect it of one.',
        );
      });
  });
}
